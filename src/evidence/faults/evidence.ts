import { restingPressure, type VehicleCase } from "../../vehicle/index.ts";
import type { System } from "./moments.ts";
import type { Reader } from "./predict.ts";
import {
  classShare,
  type FaultQuantity,
  type FaultReading,
  inner,
  innerWidth,
  placeOf,
  usualMetal,
  usualUncertainty,
} from "./quantities.ts";

/** Readings as numbers: their places in a vector of predictions, values and the noise between them. */
export interface Evidence {
  readonly picks: readonly number[];
  readonly y: readonly number[];
  /** Covariance of the instruments, k × k. */
  readonly noise: Float64Array;
  /** Standard uncertainty of each, the metal's temperature included. */
  readonly u: readonly number[];
}

/** A run with what was read in it. */
export interface Taken {
  readonly system: System;
  readonly readings: readonly FaultReading[];
}

/** Own share of a thermometer in a superheat or subcooling, at least, K. */
const leastThermometer = 0.3;

/** What errs: a gauge, or the instrument of one quantity. */
type Cause = FaultQuantity;
type Loading = Readonly<Partial<Record<Cause, number>>>;

/**
 * Readings of one vehicle in its runs. A superheat is taken from the low gauge and a subcooling from the high one, so
 * the gauge's error is in both. The class error of an instrument is the same in every run.
 */
export function evidenceOf(taken: readonly Taken[]): Evidence {
  const all = taken.flatMap(({ system, readings }, run) => {
    const u = readings.map((reading) => uncertaintyIn(reading, system));
    return readings.map((reading, i) => ({
      run,
      place: placeOf(reading.quantity, run),
      y: inner(reading.quantity, reading.value),
      u: u[i] ?? 0,
      loading: loadingOf(reading, u[i] ?? 0, readings, u, system.reader),
    }));
  });
  const k = all.length;
  return {
    picks: all.map(({ place }) => place),
    y: all.map(({ y }) => y),
    u: all.map(({ u }) => u),
    noise: Float64Array.from({ length: k * k }, (_, at) => {
      const [one, other] = [all[Math.floor(at / k)], all[at % k]];
      if (!one || !other) return 0;
      const share = one.run === other.run ? 1 : classShare;
      return share * together(one.loading, other.loading);
    }),
  };
}

const together = (a: Loading, b: Loading): number =>
  Object.entries(a).reduce((sum, [cause, x]) => sum + x * (b[cause as Cause] ?? 0), 0);

/** By what each instrument's standard error moves a reading. */
function loadingOf(
  { quantity, value }: FaultReading,
  u: number,
  readings: readonly FaultReading[],
  widths: readonly number[],
  { label }: Reader,
): Loading {
  const width = innerWidth(quantity, value, u);
  const gauge = quantity === "superheat" ? "low" : quantity === "subcooling" ? "high" : undefined;
  const at = readings.findIndex((one) => one.quantity === gauge);
  const reading = readings[at];
  if (!gauge || !reading) return { [quantity]: width };
  const line = gauge === "low" ? label.dewT : label.bubbleT;
  const slope = (line(1.01 * reading.value) - line(0.99 * reading.value)) / (0.02 * reading.value);
  // Superheat falls with its gauge's error, subcooling rises.
  const shared = (gauge === "low" ? -slope : slope) * (widths[at] ?? 0);
  const own = Math.sqrt(Math.max(width ** 2 - shared ** 2, leastThermometer ** 2));
  return { [gauge]: shared, [quantity]: own };
}

function uncertaintyIn(reading: FaultReading, { faulty, reader }: System): number {
  const own = reading.u ?? usualUncertainty[reading.quantity];
  if (reading.quantity !== "static") return own;
  return Math.hypot(own, slopeOfRest(faulty.request, reader) * (reading.uMetal ?? usualMetal));
}

/** Rise of the resting pressure with the metal's temperature, Pa/K. */
function slopeOfRest({ vehicle, fill, conditions }: VehicleCase, { metal }: Reader): number {
  const at = (T: number) => restingPressure(vehicle, fill, T, conditions.ambient);
  const [above, below] = [at(metal + 0.5), at(metal - 0.5)];
  return typeof above === "number" && typeof below === "number" ? above - below : 0;
}

/** Standard uncertainty of a reading that is not taken yet. */
export const uncertaintyToCome = (quantity: FaultQuantity, system: System): number =>
  uncertaintyIn({ quantity, value: 0 }, system);
