import { findRoot } from "../numerics/index.ts";

/**
 * Distribution function of the standard normal.
 *
 * Source: series of Marsaglia, J. Stat. Softw. 11(4), 2004, inside ±6; continued fraction DLMF 7.9.2 outside
 */
export function normalCdf(x: number): number {
  if (Math.abs(x) > 6) return x < 0 ? upperTail(-x) : 1 - upperTail(x);
  let term = x;
  let sum = x;
  for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum); k += 2) {
    term *= (x * x) / k;
    sum += term;
  }
  return 0.5 + sum * density(x);
}

const density = (x: number): number => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);

/** 1 − Φ(x) for large x by its continued fraction. */
function upperTail(x: number): number {
  let fraction = x;
  for (let k = 40; k >= 1; k--) fraction = x + k / fraction;
  return density(x) / fraction;
}

/**
 * Quantile of the standard normal.
 *
 * @param share  Between 0 and 1, both excluded.
 * @throws       RangeError outside: the caller's bug.
 */
export const normalQuantile = (share: number): number =>
  mixtureQuantile({ centres: [0], sds: [1], weights: [1] }, share);

/** Normals of which one is true: where each stands, how wide it is, and its weight; weights sum to 1. */
export interface NormalMixture {
  readonly centres: ArrayLike<number>;
  /** Positive. */
  readonly sds: ArrayLike<number>;
  readonly weights: ArrayLike<number>;
}

/** Share below x of a mixture of normals. */
export function mixtureCdf({ centres, sds, weights }: NormalMixture, x: number): number {
  let sum = 0;
  for (let i = 0; i < centres.length; i++) {
    if (weights[i] > 0) sum += weights[i] * normalCdf((x - centres[i]) / sds[i]);
  }
  return sum;
}

/** Value below which a share of a mixture lies. @throws RangeError for a share outside of 0 to 1, or without any weight. */
export function mixtureQuantile(mixture: NormalMixture, share: number): number {
  const { centres, sds, weights } = mixture;
  let [low, high, narrowest] = [Infinity, -Infinity, Infinity];
  for (let i = 0; i < centres.length; i++) {
    if (!(weights[i] > 0)) continue;
    low = Math.min(low, centres[i] - 9 * sds[i]);
    high = Math.max(high, centres[i] + 9 * sds[i]);
    narrowest = Math.min(narrowest, sds[i]);
  }
  if (!(share > 0 && share < 1) || !(narrowest > 0 && narrowest < Infinity)) {
    throw new RangeError(`share ${share} of ${centres.length} normals as narrow as ${narrowest}`);
  }
  const root = findRoot((x) => mixtureCdf(mixture, x) - share, low, high, {
    absoluteWidth: 1e-7 * narrowest,
  });
  if (root.kind === "failed") throw new RangeError("a distribution function rises");
  return root.x;
}
