import type { Chosen } from "./chosen.ts";
import type { FluidUnits } from "./fluid-units.ts";

export const DomeChart = (_: { substance: Chosen; units: FluidUnits }) => null;
