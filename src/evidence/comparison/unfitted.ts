import type { Random } from "../../numerics/index.ts";
import {
  applies,
  type ParameterName,
  parameterNames,
  plausibleRange,
  type Vehicle,
} from "../../vehicle/index.ts";
import { lumpedParameters } from "./lumps.ts";

/** Volumes move together: they were scaled to the label charge by one factor. */
const volumes: readonly ParameterName[] = [
  "condenserVolume",
  "evaporatorVolume",
  "liquidLineVolume",
  "dischargeLineVolume",
  "suctionLineVolume",
  "bufferVolume",
];
/** Half width of that factor (judged). */
const VOLUME_RANGE = 0.1;
/** Labels and safety switches are known; model constants of the cabin matter only through return air. */
const fixed: readonly ParameterName[] = ["labelCharge", "highCutOut"];

/** Parameters that no baseline can tell: they keep their prior range. */
export const unfittedParameters = (
  vehicle: Vehicle,
  known: readonly ParameterName[],
): ParameterName[] =>
  parameterNames.filter(
    (name) =>
      applies(vehicle, name) &&
      !known.includes(name) &&
      !lumpedParameters.includes(name) &&
      !volumes.includes(name) &&
      !fixed.includes(name),
  );

/** A vehicle whose parameters outside of the lumps are drawn evenly from their plausible ranges. */
export function drawUnfitted(
  vehicle: Vehicle,
  names: readonly ParameterName[],
  random: Random,
): Vehicle {
  const values = { ...vehicle.values };
  for (const name of names) {
    const { from, to } = plausibleRange(vehicle, name);
    values[name] = from + (to - from) * random();
  }
  const factor = 1 + VOLUME_RANGE * (2 * random() - 1);
  for (const name of volumes) values[name] *= factor;
  return { ...vehicle, values };
}
