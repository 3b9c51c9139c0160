import { z } from "zod";
import file from "../../data/facts/vehicle-presets.json";
import { type FluidId, isFluidId } from "../fluids/index.ts";

/** Names of the parameters of a vehicle; units, meanings, ranges and sources are in the data file. */
export const parameterNames = [
  "labelCharge",
  "displacement",
  "pulleyRatio",
  "volumetricEfficiency",
  "clearance",
  "volumetricSpeedSlope",
  "isentropicEfficiency",
  "isentropicRatioSlope",
  "isentropicSpeedSlope",
  "mechanicalEfficiency",
  "shellLoss",
  "switchOpens",
  "switchCloses",
  "switchWeight",
  "suctionSetting",
  "suctionSlope",
  "finTemperature",
  "finDifference",
  "smallestDuty",
  "highCutOut",
  "fanFlow",
  "fanSpeedExponent",
  "ramFactor",
  "faceArea",
  "condenserAirUA",
  "condenserAirReference",
  "condenserAirExponent",
  "condenserTwoPhaseUA",
  "condenserVapourUA",
  "condenserLiquidUA",
  "condenserLoadReference",
  "condenserLoadExponent",
  "recirculationShare",
  "preheat",
  "preheatSpeed",
  "dischargeResistance",
  "suctionResistance",
  "subcoolArea",
  "airFlow",
  "evaporatorAirExponent",
  "evaporatorAirUA",
  "evaporatorTwoPhaseUA",
  "evaporatorVapourUA",
  "evaporatorLoadReference",
  "evaporatorLoadExponent",
  "blowerPower",
  "ductUA",
  "ductWarmth",
  "orificeArea",
  "dischargeCoefficient",
  "flashDelay",
  "flashDelayQuality",
  "valveSmallestOpening",
  "valveSpring",
  "valveRange",
  "condenserVolume",
  "evaporatorVolume",
  "liquidLineVolume",
  "dischargeLineVolume",
  "suctionLineVolume",
  "bufferVolume",
  "bufferFill",
  "accumulatorQuality",
  "cabinUA",
  "sun",
  "cabinLeak",
  "cyclingHead",
] as const;

export type ParameterName = (typeof parameterNames)[number];
export type ParameterValues = Readonly<Record<ParameterName, number>>;

export const presetNames = ["large-orifice", "midsize-expansion", "compact-expansion"] as const;
export type PresetName = (typeof presetNames)[number];

export type Expansion = "orifice" | "valve";
/** What keeps the coil from freezing: a pressure switch, a fin thermistor (both by the clutch), or the displacement. */
export type Control = "switch" | "fin" | "displacement";

/** A vehicle's system, complete. */
export interface Vehicle {
  readonly preset: PresetName;
  readonly title: string;
  readonly expansion: Expansion;
  readonly control: Control;
  /** Refrigerant in the valve's bulb: hardware, whatever is charged. */
  readonly bulbFluid: FluidId;
  readonly values: ParameterValues;
}

/** Plausible range of a parameter, in its unit. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

const rangeSchema = z.union([
  z.strictObject({ factor: z.number().min(1) }),
  z.strictObject({ offset: z.number().positive() }),
  z.strictObject({ from: z.number(), to: z.number() }),
]);
const parameterSchema = z.strictObject({
  unit: z.string(),
  what: z.string(),
  range: rangeSchema,
  source: z.string().min(5),
  only: z.enum(["orifice", "valve", "switch", "fin", "displacement"]).optional(),
});
const presetSchema = z.strictObject({
  title: z.string(),
  expansion: z.enum(["orifice", "valve"]),
  control: z.enum(["switch", "fin", "displacement"]),
  bulbFluid: z.string().refine(isFluidId),
  values: z.record(z.enum(parameterNames), z.number()),
});
const fileSchema = z.strictObject({
  schema: z.literal(1),
  title: z.string(),
  about: z.string(),
  transcribed: z.string(),
  checked: z.string(),
  parameters: z.record(z.enum(parameterNames), parameterSchema),
  presets: z.record(z.enum(presetNames), presetSchema),
});

const data = fileSchema.parse(file);

/** Unit, meaning, source of a parameter. */
export const parameterInfo = (name: ParameterName): z.infer<typeof parameterSchema> =>
  data.parameters[name];

/** The vehicle of a preset with all its defaults. */
export function presetVehicle(preset: PresetName): Vehicle {
  const { title, expansion, control, bulbFluid, values } = data.presets[preset];
  return { preset, title, expansion, control, bulbFluid, values };
}

/** Whether a parameter means anything on a vehicle. */
export function applies(vehicle: Vehicle, name: ParameterName): boolean {
  const { only } = data.parameters[name];
  return only === undefined || only === vehicle.expansion || only === vehicle.control;
}

/** Plausible range of a parameter around a vehicle's value. */
export function plausibleRange(vehicle: Vehicle, name: ParameterName): Range {
  const { range } = data.parameters[name];
  const value = vehicle.values[name];
  if ("factor" in range) return { from: value / range.factor, to: value * range.factor };
  if ("offset" in range) return { from: value - range.offset, to: value + range.offset };
  return { from: Math.min(range.from, value), to: Math.max(range.to, value) };
}

/** An override that is not usable: its name, what was given, what is accepted. */
export interface ParameterIssue {
  readonly field: string;
  readonly value: unknown;
  readonly accepted: string;
}

export type VehicleOutcome =
  | { readonly kind: "vehicle"; readonly vehicle: Vehicle }
  | { readonly kind: "invalid"; readonly issues: readonly ParameterIssue[] };

/** Overrides may leave the plausible range, a misprint not: three times the default or a tenth of the span beyond. */
const wide = 3;

function accepted(vehicle: Vehicle, name: ParameterName): Range {
  const { range } = data.parameters[name];
  const value = vehicle.values[name];
  if ("factor" in range) return { from: value / wide, to: value * wide };
  if ("offset" in range) {
    return { from: value - 10 * range.offset, to: value + 10 * range.offset };
  }
  const span = range.to - range.from;
  return {
    from: Math.max(range.from >= 0 ? Math.min(range.from, 0) : -Infinity, range.from - span),
    to: range.to + span,
  };
}

/** Efficiencies and shares that end at 1. */
const atMostOne: readonly ParameterName[] = [
  "volumetricEfficiency",
  "isentropicEfficiency",
  "mechanicalEfficiency",
  "switchWeight",
  "smallestDuty",
  "bufferFill",
  "accumulatorQuality",
  "dischargeCoefficient",
];

/** Refrigerants that bulbs of thermostatic valves are filled for. */
export const bulbFluids = [
  "R134a",
  "R1234yf",
  "R12",
  "R152a",
  "R290",
  "R600a",
] as const satisfies readonly FluidId[];

/**
 * A vehicle with some parameters given by the user; `bulbFluid` is one of them where there is a valve.
 *
 * @param base      A preset, or a vehicle made of one.
 * @param overrides Anything from outside: names of parameters with numbers in the units of the data file.
 * @returns the vehicle, or one issue for each name or value that is not usable.
 */
export function refineVehicle(
  base: PresetName | Vehicle,
  overrides: Readonly<Record<string, unknown>>,
): VehicleOutcome {
  const vehicle = typeof base === "string" ? presetVehicle(base) : base;
  const { preset } = vehicle;
  let { bulbFluid } = vehicle;
  const issues: ParameterIssue[] = [];
  const values: Record<ParameterName, number> = { ...vehicle.values };
  for (const [field, value] of Object.entries(overrides)) {
    if (field === "bulbFluid" && vehicle.expansion === "valve") {
      const bulb = bulbFluids.find((known) => known === value);
      if (bulb === undefined) issues.push({ field, value, accepted: bulbFluids.join(" or ") });
      else bulbFluid = bulb;
      continue;
    }
    const name = parameterNames.find((known) => known === field);
    if (name === undefined || !applies(vehicle, name)) {
      const names = parameterNames.filter((known) => applies(vehicle, known)).join(", ");
      issues.push({ field, value, accepted: `a parameter of ${preset} out of: ${names}` });
      continue;
    }
    const { from, to } = accepted(vehicle, name);
    const end = atMostOne.includes(name) ? Math.min(1, to) : to;
    if (typeof value === "number" && value >= from && value <= end) values[name] = value;
    else {
      const { unit } = data.parameters[name];
      issues.push({ field, value, accepted: `a number from ${from} to ${end} ${unit}` });
    }
  }
  if (values.switchCloses < values.switchOpens) {
    const value = values.switchCloses;
    issues.push({ field: "switchCloses", value, accepted: "a pressure above switchOpens" });
  }
  return issues.length > 0
    ? { kind: "invalid", issues }
    : { kind: "vehicle", vehicle: { ...vehicle, bulbFluid, values } };
}
