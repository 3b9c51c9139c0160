import { type PresetName, sizedVehicle, type Vehicle } from "../../vehicle/index.ts";
import type { VehicleView } from "../view.ts";

export type ModelChoice =
  | { readonly kind: "model"; readonly vehicle: Vehicle; readonly preset: PresetName }
  | { readonly kind: "none"; readonly why: string };

/** A compact vehicle's label charge ends about here, kg: between the two presets with an expansion valve. */
const compactUpTo = 0.48;

/**
 * The model of the described vehicle: the preset of its kind, sized to its label charge.
 * Kinds for which no preset exists have no model; nothing is guessed for them.
 */
export function modelOf(vehicle: VehicleView): ModelChoice {
  const preset = presetOf(vehicle);
  if (preset === undefined) {
    return {
      kind: "none",
      why: "No model is at hand for this metering device and compressor. Describe them, if they are known.",
    };
  }
  const sized = sizedVehicle(preset, vehicle.labelCharge);
  return sized
    ? { kind: "model", vehicle: sized, preset }
    : {
        kind: "none",
        why: "The label charge is outside of what the model of this kind of vehicle covers.",
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
