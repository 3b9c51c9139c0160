import {
  applies,
  parameterInfo,
  type ParameterName,
  parameterNames,
  plausibleRange,
  type PresetName,
  presetNames,
  presetVehicle,
  sizedVehicle,
} from "../vehicle/index.ts";

/** A kind of vehicle that the calculations know. */
export interface PresetView {
  readonly name: PresetName;
  readonly title: string;
  readonly expansion: "orifice" | "valve";
  /** kg */
  readonly labelCharge: number;
}

/** The kinds of vehicle that `vehicle` and `sweep` take as `preset`. */
export const vehiclePresets: readonly PresetView[] = presetNames.map((name) => {
  const { title, expansion, values } = presetVehicle(name);
  return { name, title, expansion, labelCharge: values.labelCharge };
});

/** What a parameter belongs to. */
export type ParameterGroup =
  "compressor" | "control" | "condenser" | "evaporator" | "expansion" | "volumes" | "cabin";

/** A parameter of a vehicle: its default there, and how far it may plausibly be off. */
export interface ParameterView {
  readonly name: ParameterName;
  readonly group: ParameterGroup;
  readonly what: string;
  /** As in the preset file; the three numbers are in it. */
  readonly unit: string;
  readonly value: number;
  readonly from: number;
  readonly to: number;
  readonly source: string;
}

const groups: readonly (readonly [RegExp, ParameterGroup])[] = [
  [/Volume$|^buffer|^accumulator/, "volumes"],
  [/^cabin|^sun$/, "cabin"],
  [/^switch|^suctionS|^fin|^smallestDuty|^highCutOut|^cyclingHead/, "control"],
  [/^orifice|^valve|^dischargeCoefficient|^flash/, "expansion"],
  [/^evaporator|^airFlow|^blower|^duct/, "evaporator"],
  [/^condenser|^fanFlow|^fanSpeed|^ram|^faceArea|^recirc|^preheat|^subcool/, "condenser"],
];

const groupOf = (name: ParameterName): ParameterGroup =>
  groups.find(([pattern]) => pattern.test(name))?.[1] ?? "compressor";

/**
 * Parameters of a kind of vehicle, without the label charge, which sizes the others.
 *
 * @param labelCharge kg; where the kind does not reach to it, the preset's own defaults.
 */
export function vehicleParameters(
  preset: PresetName,
  labelCharge: number,
): readonly ParameterView[] {
  const vehicle = sizedVehicle(preset, labelCharge) ?? presetVehicle(preset);
  return parameterNames
    .filter((name) => name !== "labelCharge" && applies(vehicle, name))
    .map((name) => {
      const { unit, what, source } = parameterInfo(name);
      const value = vehicle.values[name];
      return {
        name,
        group: groupOf(name),
        what,
        unit,
        value,
        source,
        ...plausibleRange(vehicle, name),
      };
    });
}
