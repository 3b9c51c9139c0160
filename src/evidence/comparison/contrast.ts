import { mixtureCdf, mixtureQuantile } from "../../inference/index.ts";
import type { ComparisonInput, Observation } from "./comparable.ts";
import type { Ensemble } from "./ensemble.ts";
import type { DriftSizes, ErrorPlace } from "./errors.ts";
import type { StandardCondition } from "./standard.ts";
import type { Interval } from "./verdict.ts";
import type { Estimate } from "./view.ts";

/** Everything a contrast of readings is judged by. */
export interface Evaluated {
  readonly input: ComparisonInput;
  readonly observed: readonly Observation[];
  readonly places: readonly ErrorPlace[];
  readonly covariances: readonly { readonly at: readonly number[]; readonly of: Float64Array }[];
  readonly standard: readonly StandardCondition[];
  readonly drift: DriftSizes;
  readonly ensemble: Ensemble;
}

/** Weights of observations, by their place: what is averaged minus what is averaged. */
export type Weights = ReadonlyMap<number, number>;

/** A contrast in equal conditions with its distribution: equally likely normals of one width. */
export interface Contrast {
  readonly raw: number;
  readonly estimate: Estimate;
  readonly centres: Float64Array;
  readonly sd: number;
}

/** Part of the errors' own variance that a mixture keeps at least: its centres stay smooth. */
const LEAST_WIDTH = 0.25;

const sumOf = (weights: Weights, of: (place: number) => number): number => {
  let sum = 0;
  for (const [place, weight] of weights) sum += weight * of(place);
  return sum;
};

/** Variance of a weighted sum under a covariance of some observations. */
export function varianceOf(weights: Weights, { at, of }: Evaluated["covariances"][number]): number {
  let sum = 0;
  at.forEach((a, i) => {
    const wa = weights.get(a) ?? 0;
    if (wa === 0) return;
    at.forEach((b, j) => {
      sum += wa * (weights.get(b) ?? 0) * (of[i * at.length + j] ?? 0);
    });
  });
  return sum;
}

/**
 * Σ w·(reading − model on the label refrigerant) with its distribution.
 *
 * @param extra Variance that is added: of what else may differ.
 */
export function contrastOf(
  { observed, covariances, ensemble }: Evaluated,
  weights: Weights,
  extra = 0,
): Contrast {
  const raw = sumOf(weights, (place) => observed[place]?.value ?? 0);
  const shifts = ensemble.predicted.map((out) => sumOf(weights, (place) => out[place] ?? 0));
  const errors = ensemble.errors.map((out) => sumOf(weights, (place) => out[place] ?? 0));
  const [shift, error] = [meanOf(shifts), meanOf(errors)];
  const own = covariances.reduce((sum, each) => sum + varianceOf(weights, each), extra);
  let together = 0;
  let spread = 0;
  shifts.forEach((each, k) => {
    together += (each - shift) * ((errors[k] ?? 0) - error);
    spread += (each - shift) ** 2;
  });
  const n = Math.max(1, shifts.length - 1);
  const width = Math.max(LEAST_WIDTH * own, own + (2 * together) / n, 1e-12);
  const centres = Float64Array.from(shifts, (each) => raw - each);
  const estimate = { value: raw - shift, u: Math.sqrt(width + spread / n) };
  return { raw, estimate, centres, sd: Math.sqrt(width) };
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

export const intervalOf = ({ centres, sd }: Contrast): Interval => ({
  from: mixtureQuantile(centres, sd, 0.025),
  to: mixtureQuantile(centres, sd, 0.975),
});

export const shareBelow =
  ({ centres, sd }: Contrast) =>
  (difference: number): number =>
    mixtureCdf(centres, sd, difference);
