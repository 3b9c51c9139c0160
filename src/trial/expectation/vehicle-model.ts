import {
  type ParameterName,
  parameterNames,
  type PresetName,
  sizedVehicle,
  type Vehicle,
} from "../../vehicle/index.ts";
import type { VehicleView } from "../view.ts";

export type ModelChoice =
  | {
      readonly kind: "model";
      readonly vehicle: Vehicle;
      /** Parameters that the user knows: they carry no range. */
      readonly known: readonly ParameterName[];
    }
  | { readonly kind: "none"; readonly why: string };

/** A compact vehicle's label charge ends about here, kg: between the two presets with an expansion valve. */
const compactUpTo = 0.48;

/**
 * The model of the described vehicle: the preset of its kind, sized to its label charge, with the parameters
 * that the log gives.
 * Kinds for which no preset exists have no model; nothing is guessed for them.
 */
export function modelOf(vehicle: VehicleView): ModelChoice {
  const preset = vehicle.model?.preset ?? presetOf(vehicle);
  if (preset === undefined) {
    return {
      kind: "none",
      why: "No model is at hand for this metering device and compressor. Describe them, if they are known.",
    };
  }
  const sized = sizedVehicle(preset, vehicle.labelCharge);
  if (!sized) {
    return {
      kind: "none",
      why: "The label charge is outside of what the model of this kind of vehicle covers.",
    };
  }
  const refined = vehicle.model?.refined ?? {};
  const known = parameterNames.filter((name) => name in refined);
  return {
    kind: "model",
    vehicle: { ...sized, values: { ...sized.values, ...refined } },
    known: ["labelCharge", ...known],
  };
}

function presetOf({
  meteringDevice,
  compressor,
  labelCharge,
}: VehicleView): PresetName | undefined {
  if (meteringDevice === "orifice-tube") {
    return compressor === "fixed-cycling" ? "large-orifice" : undefined;
  }
  if (meteringDevice !== "expansion-valve") return undefined;
  if (compressor === "variable") return "midsize-expansion";
  if (compressor !== "fixed-cycling") return undefined;
  return labelCharge <= compactUpTo ? "compact-expansion" : undefined;
}
