import type { ErrorGroup } from "../../inference/index.ts";
import type { Running } from "../../vehicle/index.ts";
import {
  type ComparableRun,
  comparedQuantities,
  type ComparedQuantity,
  type Observation,
} from "./comparable.ts";

/** Standard deviations of what is neither the fluid's effect nor the fitted model's, in K and Pa. */
export interface ErrorSizes {
  /** What the model leaves out of one reading. */
  readonly discrepancy: number;
  /** The same where the label refrigerant is starved. */
  readonly discrepancyStarved: number;
  /** One run against its repeat: hood, sun, soak (common practice, no source). */
  readonly repeatability: number;
  /** Change of the vehicle itself between Prove and Restore (common practice, no source). */
  readonly drift: number;
}

const PSI = 6894.757293168;

/** What is left of a reading's whole error when its measurement is taken out. */
const beyond = (whole: number, measurement: number): number =>
  Math.sqrt(whole ** 2 - measurement ** 2);

/**
 * One rule for every discrepancy: how far a calibrated model misses a reading, measurement included, less the
 * measurement's 0.45 K and 4.7 psi. Two sets of such misses are at hand, 0.6 K, 6 psi and 0.6 K, 5 psi; both were said
 * to be rather large, so the smaller counts. Of a starved system's vent: 1.8 K. The low side's is that of readings
 * which no control holds, without any error of measurement: a control takes away most of the miss.
 *
 * Source: docs/models/comparison.md (trials of the model against variants of itself; no measurement). That a starved
 * system's pressures are missed by half as much again is judged.
 */
const model = {
  vent: beyond(0.6, 0.45),
  ventStarved: beyond(1.8, 0.45),
  low: 7e3,
  high: beyond(5, 4.7) * PSI,
};
const STARVED = 1.5;

export const errorSizes: Readonly<Record<ComparedQuantity, ErrorSizes>> = {
  vent: {
    discrepancy: model.vent,
    discrepancyStarved: model.ventStarved,
    repeatability: 0.3,
    drift: 0.4,
  },
  low: {
    discrepancy: model.low,
    discrepancyStarved: STARVED * model.low,
    repeatability: 5e3,
    drift: 7e3,
  },
  high: {
    discrepancy: model.high,
    discrepancyStarved: STARVED * model.high,
    repeatability: 20e3,
    drift: 20e3,
  },
};

/** Part of the variance of an instrument's error that differs from place to place on its scale; the rest cancels. */
const UNSHARED = 0.01;

/** Changes over which what the model leaves out changes by about itself. */
export const lengths = {
  ambient: 8,
  returnT: 8,
  returnHumidity: 0.004,
  speed: 20,
  engineSpeed: 15,
} as const;

/** Where a run stands, as far as discrepancy is concerned. */
export interface Place {
  readonly ambient: number;
  readonly returnT: number;
  readonly returnHumidity: number;
  readonly speed: number;
  readonly engineSpeed: number;
}

export const placeOf = (
  { ambient, speed, engineSpeed }: ComparableRun["conditions"],
  { returnAir }: Running,
): Place => ({
  ambient,
  speed,
  engineSpeed,
  returnT: returnAir.T,
  returnHumidity: returnAir.humidityRatio,
});

/** Correlation of what the model leaves out between two places. Source: squared exponential, Kennedy & O'Hagan 2001. */
export function likeness(a: Place, b: Place): number {
  let sum = 0;
  for (const key of Object.keys(lengths) as (keyof Place)[]) {
    sum += ((a[key] - b[key]) / lengths[key]) ** 2;
  }
  return Math.exp(-sum / 2);
}

/** A run as the errors see it. */
export interface ErrorPlace {
  readonly place: Place;
  /** 0 before, 1 after, products between. */
  readonly time: number;
}

/** Standard deviation of drift of each quantity over the whole trial. */
export type DriftSizes = Readonly<Record<ComparedQuantity, number>>;

/**
 * What the model leaves out of one reading of the label refrigerant. A low side that the control holds stands where
 * the control is set: the setting is fitted, and the model leaves nothing out. A flooded system is missed no more than a
 * balanced one.
 */
export function leftOut(quantity: ComparedQuantity, { duty, regime }: Running): number {
  if (quantity === "low" && duty < 1) return 0;
  const { discrepancy, discrepancyStarved } = errorSizes[quantity];
  const isStarved = regime === "starved" || regime === "gas";
  return isStarved ? discrepancyStarved : discrepancy;
}

/** Errors of the readings by quantity: what the model leaves out has a size in each vehicle, the rest is fixed. */
export const errorGroups = (
  observed: readonly Observation[],
  places: readonly ErrorPlace[],
  drift: DriftSizes,
): ErrorGroup[] =>
  comparedQuantities.map((quantity) => {
    const at = observed.flatMap((each, i) => (each.quantity === quantity ? [i] : []));
    const mine = at.flatMap((i) => observed[i] ?? []);
    return { at, ...errorGroup(mine, places, drift[quantity], errorSizes[quantity]) };
  });

function errorGroup(
  mine: readonly Observation[],
  places: readonly ErrorPlace[],
  drift: number,
  { repeatability }: ErrorSizes,
): Pick<ErrorGroup, "fixed" | "likeness"> {
  const n = mine.length;
  const fixed = new Float64Array(n * n);
  const alike = new Float64Array(n * n);
  mine.forEach((a, i) => {
    mine.forEach((b, j) => {
      const [pa, pb] = [places[a.run], places[b.run]];
      if (!pa || !pb) throw new RangeError(`no place for runs ${a.run} and ${b.run}`);
      let sum = drift ** 2 * Math.min(pa.time, pb.time);
      if (a.instrument === b.instrument) sum += (1 - UNSHARED) * a.uInstrument * b.uInstrument;
      if (a.run === b.run) sum += repeatability ** 2;
      if (i === j) sum += a.uRepeatability ** 2 + UNSHARED * a.uInstrument ** 2;
      fixed[i * n + j] = sum;
      alike[i * n + j] = likeness(pa.place, pb.place);
    });
  });
  return { fixed, likeness: alike };
}
