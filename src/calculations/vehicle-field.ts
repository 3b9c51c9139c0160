import { z } from "zod";
import { type Dimension, parseQuantity, toSI } from "../units/index.ts";
import {
  bulbFluids,
  parameterInfo,
  type ParameterName,
  parameterNames,
  type PresetName,
  presetNames,
  presetVehicle,
  refineVehicle,
  sizedVehicle,
  sizingLimits,
  type Vehicle,
} from "../vehicle/index.ts";
import { issue } from "./answer.ts";
import { type Field, unusable } from "./field.ts";
import { findFluid } from "./fluid-field.ts";

/** A vehicle as asked for: complete, and which parameters the user gave. */
export interface VehicleValue {
  readonly vehicle: Vehicle;
  readonly given: readonly ParameterName[];
  /** Whether the preset was made larger or smaller for the label charge. */
  readonly sized: boolean;
}

/** Dimension in which a text may be given, by the unit of the parameter. */
const dimensions: Readonly<Record<string, Dimension>> = {
  kg: "mass",
  m3: "volume",
  "m3/rev": "volume",
  Pa: "pressure",
  "Pa gauge": "pressure-difference",
  "1": "ratio",
};

/** A text in SI; anything else as it is, for the vehicle to judge. */
function inSI(name: string, value: unknown): unknown {
  if (name === "bulbFluid" && typeof value === "string") return findFluid(value) ?? value;
  const known = parameterNames.find((each) => each === name);
  if (known === undefined || typeof value !== "string") return value;
  const { unit } = parameterInfo(known);
  const kelvin = known === "finTemperature" ? "temperature" : "temperature-difference";
  const dimension = unit === "K" ? kelvin : dimensions[unit];
  if (dimension === undefined) return value;
  const parsed = parseQuantity(value, dimension);
  return parsed.kind === "invalid" ? value : toSI(parsed.quantity);
}

const schema = z
  .object({ preset: z.enum(presetNames).describe("Kind of system") })
  .catchall(z.union([z.number(), z.string().max(80)]))
  .describe(
    `The vehicle: {preset: ${presetNames.join(" | ")}} and any parameters that are known, each a number in the unit of the preset file or a text with a unit. With labelCharge all sizes that are not given are scaled to it; bulbFluid (${bulbFluids.join(", ")}) is what the valve's bulb was filled for. Parameters: ${parameterNames.join(", ")}.`,
  );

/** Most issues that one vehicle is told. */
const MOST = 40;

/** A vehicle by its preset and the parameters that are known. */
export const vehicleField: Field<VehicleValue> = {
  schema,
  required: true,
  read(raw, name) {
    const { preset, ...rest } = raw as { readonly preset: PresetName };
    const overrides = Object.fromEntries(
      Object.entries(rest).map(([key, value]) => [key, inSI(key, value)]),
    );
    const { labelCharge } = overrides;
    const base =
      typeof labelCharge === "number" ? sizedVehicle(preset, labelCharge) : presetVehicle(preset);
    if (base === undefined) {
      const { labelCharge: usual } = presetVehicle(preset).values;
      const [from, to] = [sizingLimits.from * usual, sizingLimits.to * usual];
      return unusable(
        `${name}.labelCharge`,
        labelCharge,
        `${from.toPrecision(3)} to ${to.toPrecision(3)} kg for ${preset}: beyond it is another kind of vehicle`,
      );
    }
    const outcome = refineVehicle(base, overrides);
    if (outcome.kind === "invalid") {
      const issues = outcome.issues
        .slice(0, MOST)
        .map(({ field, value, accepted }) => issue(`${name}.${field}`, value, accepted));
      return { kind: "unusable", issues };
    }
    const given = parameterNames.filter((each) => Object.hasOwn(overrides, each));
    const sized = labelCharge !== undefined;
    return { kind: "value", value: { vehicle: outcome.vehicle, given, sized } };
  },
};
