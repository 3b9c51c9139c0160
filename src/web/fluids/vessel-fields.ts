import type { MassShare } from "../../report/index.ts";
import { type QuantitySpec, typedQuantity, unitOfSpec } from "./fields.tsx";
import type { Composition } from "./results.ts";

/** The vessel in question: a small can as a start. */
export const vesselSpecs = {
  volume: {
    name: "volume",
    label: "Inner volume",
    dimension: "volume",
    usual: { us: "L", si: "L" },
    initial: "0.5",
  },
  mass: {
    name: "mass",
    label: "Mass inside",
    dimension: "mass",
    usual: { us: "oz", si: "g" },
  },
  T: {
    name: "vesselT",
    label: "Temperature of all of it",
    dimension: "temperature",
    usual: { us: "°F", si: "°C" },
  },
  air: {
    name: "airMass",
    label: "Mass of air or nitrogen inside",
    dimension: "mass",
    usual: { us: "g", si: "g" },
    initial: "1",
  },
  T2: {
    name: "airT2",
    label: "At a second temperature",
    dimension: "temperature",
    usual: { us: "°F", si: "°C" },
  },
} as const satisfies Record<string, QuantitySpec>;

/** Starting values in the unit that stands beside the field. */
const starts: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  mass: { oz: "8", g: "225", lb: "0.5", kg: "0.225" },
  vesselT: { "°F": "75", "°C": "24", K: "297" },
  airT2: { "°F": "120", "°C": "50", K: "323" },
};

export const startingFrom = (spec: QuantitySpec, unit: string): QuantitySpec => {
  const initial = starts[spec.name]?.[unit];
  return initial === undefined ? spec : { ...spec, initial };
};

export const sharesOf = (composition: readonly Composition[]): MassShare[] =>
  composition.map(({ fluid, mass }) => ({ name: fluid, fraction: mass }));

/** The vessel's fields with the values to start from. */
export const vesselInputs = () => ({
  volume: startingFrom(vesselSpecs.volume, unitOfSpec(vesselSpecs.volume)),
  mass: startingFrom(vesselSpecs.mass, unitOfSpec(vesselSpecs.mass)),
  T: startingFrom(vesselSpecs.T, unitOfSpec(vesselSpecs.T)),
});

/** What the three fields say; undefined while one is empty. */
export function typedVessel(): Readonly<Record<"volume" | "mass" | "T", string>> | undefined {
  const specs = vesselInputs();
  const [volume, mass, T] = [specs.volume, specs.mass, specs.T].map(typedQuantity);
  return volume === undefined || mass === undefined || T === undefined
    ? undefined
    : { volume, mass, T };
}
