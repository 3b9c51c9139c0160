import { effectiveSamples, normalisedWeights } from "../../inference/index.ts";

/** Vehicles that an answer rests on at least, in effect. */
const LEAST_VEHICLES = 40;

/**
 * Weights that sum to 1; where they would rest on few vehicles they are brought nearer to each other.
 *
 * Source: tempered importance weights (common practice)
 */
export function temperedWeights(logs: readonly number[]): Float64Array {
  const least = Math.min(LEAST_VEHICLES, logs.length / 2);
  for (let power = 1; ; power *= 0.9) {
    const weights = normalisedWeights(logs.map((log) => power * log));
    if (effectiveSamples(weights) >= least || power < 1e-9) return weights;
  }
}

/**
 * Places in proportion to their weights.
 *
 * @param start Between 0 and 1: where the evenly spaced marks begin.
 * Source: systematic resampling (common practice)
 */
export function resampled(weights: Float64Array, count: number, start: number): number[] {
  const kept: number[] = [];
  let sum = 0;
  weights.forEach((weight, place) => {
    sum += weight * count;
    while (kept.length + start < sum && kept.length < count) kept.push(place);
  });
  return kept;
}
