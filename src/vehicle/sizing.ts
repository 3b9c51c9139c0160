import { type ParameterName, presetVehicle, type PresetName, type Vehicle } from "./parameters.ts";

/**
 * How capacity grows with label charge from class to class: 3.0, 4.2, 5.2 and 7.0 kW at 0.45, 0.60, 0.80 and
 * 1.35 kg fall on charge to the power 0.77 within 6 % (engineering ranges of vehicle classes; common
 * practice, no source).
 */
const growth = 0.77;

/** What a larger system of the same kind has more of, in proportion to its capacity. */
const withCapacity: readonly ParameterName[] = [
  "displacement",
  "fanFlow",
  "faceArea",
  "condenserAirUA",
  "condenserAirReference",
  "condenserTwoPhaseUA",
  "condenserVapourUA",
  "condenserLiquidUA",
  "condenserLoadReference",
  "airFlow",
  "evaporatorAirUA",
  "evaporatorTwoPhaseUA",
  "evaporatorVapourUA",
  "evaporatorLoadReference",
  "blowerPower",
  "ductUA",
  "orificeArea",
  "cabinUA",
  "sun",
  "cabinLeak",
];
/** Pressure drop K·m²/ρ: the same drop at the flow of the larger system. */
const againstCapacity: readonly ParameterName[] = ["dischargeResistance", "suctionResistance"];
/** Volumes grow with the charge that they hold. */
const withCharge: readonly ParameterName[] = [
  "condenserVolume",
  "evaporatorVolume",
  "liquidLineVolume",
  "dischargeLineVolume",
  "suctionLineVolume",
  "bufferVolume",
];

/** Label charges over the preset's that are still one kind of vehicle: beyond it the rule has no support. */
export const sizingLimits = { from: 0.4, to: 2.5 };

/**
 * A preset made larger or smaller until its label charge is the given one.
 *
 * @param labelCharge kg of the label refrigerant.
 * @returns the vehicle, or undefined outside of `sizingLimits` times the preset's label charge.
 * Source: common practice, no source; see `growth`.
 */
export function sizedVehicle(preset: PresetName, labelCharge: number): Vehicle | undefined {
  const vehicle = presetVehicle(preset);
  const ratio = labelCharge / vehicle.values.labelCharge;
  if (!(ratio >= sizingLimits.from && ratio <= sizingLimits.to)) return undefined;
  const size = ratio ** growth;
  const values = { ...vehicle.values, labelCharge };
  for (const name of withCapacity) values[name] *= size;
  for (const name of againstCapacity) values[name] /= size * size;
  for (const name of withCharge) values[name] *= ratio;
  return { ...vehicle, values };
}
