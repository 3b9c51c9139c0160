import type { Conditions } from "../../vehicle/index.ts";

/** What a tester can read for a diagnosis; the order is that of every vector of predictions. */
export const faultQuantities = [
  "low",
  "high",
  "vent",
  "superheat",
  "subcooling",
  "discharge",
  "liquidLine",
  "duty",
  "static",
] as const;
export type FaultQuantity = (typeof faultQuantities)[number];

/** Predictions of several runs stand after each other in one vector. */
export const placeOf = (quantity: FaultQuantity, run = 0): number =>
  run * faultQuantities.length + faultQuantities.indexOf(quantity);
/** What stands at a place of that vector. */
export function quantityAt(place: number): {
  readonly quantity: FaultQuantity;
  readonly run: number;
} {
  const quantity = faultQuantities[place % faultQuantities.length];
  if (quantity === undefined) throw new RangeError(`no quantity stands at ${place}`);
  return { quantity, run: Math.floor(place / faultQuantities.length) };
}

const PSI = 6894.757293168;

/**
 * What the model leaves out, standard deviations in SI. Low, high and vent as in docs/models/faults.md (trials of
 * this model against variants of itself); the others are judged, no source.
 */
export const discrepancy: Readonly<Record<FaultQuantity, number>> = {
  low: 1.4 * PSI,
  high: 6 * PSI,
  vent: 0.6,
  superheat: 2,
  subcooling: 1.5,
  discharge: 5,
  liquidLine: 1.5,
  duty: 0.08,
  static: 2e3,
};
/**
 * A quantity as the statistics see it: the head by its logarithm, because air flow over the condenser moves it by a
 * factor; everything else as it is.
 */
export const inner = (quantity: FaultQuantity, value: number): number =>
  quantity === "high" ? Math.log(value) : value;
export const outer = (quantity: FaultQuantity, value: number): number =>
  quantity === "high" ? Math.exp(value) : value;
/** A small width at a value, seen by the statistics. */
export const innerWidth = (quantity: FaultQuantity, value: number, width: number): number =>
  quantity === "high" ? width / value : width;

/**
 * Share of an instrument's variance that stays the same from run to run: its class is an offset, what is left is how it
 * was read (a choice, no source).
 */
export const classShare = 0.7;

/** Vent of a starved or flooded system, K: volumes that no baseline can calibrate decide it. */
export const ventOffBalance = 1.8;
/** Share of a fault's own effect that the model may be wrong by (a choice, no source). */
export const effectShare = 0.15;

/** Standard uncertainty of a reading whose instrument is not stated, SI (shop instruments; common practice, no source). */
export const usualUncertainty: Readonly<Record<FaultQuantity, number>> = {
  low: 1.2 * PSI,
  high: 4.7 * PSI,
  vent: 0.45,
  superheat: 1.3,
  subcooling: 1.5,
  discharge: 2,
  liquidLine: 1,
  duty: 0.08,
  static: 2 * PSI,
};
/** Standard uncertainty of the metal's temperature beside a static pressure, K (common practice, no source). */
export const usualMetal = 1;

/** A reading, SI; pressures absolute. */
export interface FaultReading {
  readonly quantity: FaultQuantity;
  readonly value: number;
  /** Standard uncertainty of the instrument, SI; the usual one when left out. */
  readonly u?: number;
  /** Of the metal, K: beside a static pressure. */
  readonly metal?: number;
  /** Standard uncertainty of the metal's temperature, K. */
  readonly uMetal?: number;
}

/** Where a cycling low side lies between its ends on the mean: docs/models/vehicle.md, 0.15 to 0.45. */
const meanShare = 0.27;

type Value = Pick<FaultReading, "value" | "u">;

/** The low side between its ends: its mean lies nearer to the lower, known to a tenth of the swing. */
export function meanOfSwing(lowest: Value, highest: Value): FaultReading {
  const swing = highest.value - lowest.value;
  const u = Math.max(lowest.u ?? 8e3, highest.u ?? 8e3);
  return {
    quantity: "low",
    value: lowest.value + meanShare * swing,
    u: Math.hypot(u, 0.1 * swing),
  };
}

/** A run of the vehicle: its surroundings, and at most one reading of a quantity. */
export interface ReadRun {
  readonly conditions: Conditions;
  readonly readings: readonly FaultReading[];
}
