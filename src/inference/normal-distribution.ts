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
export const normalQuantile = (share: number): number => mixtureQuantile([0], 1, share);

/**
 * Share below x of a mixture of equally likely normals of one standard deviation.
 *
 * @param centres At least one.
 * @param sd      Positive.
 */
export function mixtureCdf(centres: ArrayLike<number>, sd: number, x: number): number {
  let sum = 0;
  for (let i = 0; i < centres.length; i++) sum += normalCdf((x - centres[i]) / sd);
  return sum / centres.length;
}

/** Value below which a share of such a mixture lies. @throws RangeError for a share outside of 0 to 1. */
export function mixtureQuantile(centres: ArrayLike<number>, sd: number, share: number): number {
  if (!(share > 0 && share < 1) || centres.length === 0 || !(sd > 0)) {
    throw new RangeError(`share ${share} of ${centres.length} normals of width ${sd}`);
  }
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < centres.length; i++) {
    low = Math.min(low, centres[i]);
    high = Math.max(high, centres[i]);
  }
  const root = findRoot((x) => mixtureCdf(centres, sd, x) - share, low - 9 * sd, high + 9 * sd, {
    absoluteWidth: 1e-9 * sd,
  });
  if (root.kind === "failed") throw new RangeError("a distribution function rises");
  return root.x;
}
