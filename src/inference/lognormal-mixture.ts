import { normalCdf } from "./normal-distribution.ts";

/** One part of a mixture of lognormal distributions. */
export interface LognormalPart {
  /** Any positive size; only ratios count. */
  readonly weight: number;
  /** Mean and variance of the logarithm. */
  readonly ln: number;
  readonly variance: number;
}

/**
 * Value below which a share of a mixture of lognormals lies.
 *
 * @param share Between 0 and 1, ends excluded.
 * @throws      RangeError if there is no part with weight: the caller's bug.
 */
export function lognormalMixtureQuantile(parts: readonly LognormalPart[], share: number): number {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) throw new RangeError("a mixture needs a part with weight");
  const below = (u: number): number =>
    parts.reduce(
      (sum, { weight, ln, variance }) =>
        sum + weight * normalCdf((u - ln) / Math.sqrt(Math.max(variance, 1e-18))),
      0,
    ) / total;
  let low = Infinity;
  let high = -Infinity;
  for (const { ln, variance } of parts) {
    low = Math.min(low, ln - 9 * Math.sqrt(variance) - 1e-9);
    high = Math.max(high, ln + 9 * Math.sqrt(variance) + 1e-9);
  }
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (below(middle) < share) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
