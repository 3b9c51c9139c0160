import { normalCdf } from "./normal-distribution.ts";

/**
 * Whether stated posteriors tell the truth: over many simulated truths, the share of each posterior below its
 * truth is uniform, and 95 % intervals hold 95 % of the truths.
 *
 * Source: Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788 (rank statistics)
 */
export interface RankStatistics {
  readonly n: number;
  /** How many ranks fell into each of the equal bins. */
  readonly bins: readonly number[];
  /** Σ (count − n/bins)²/(n/bins), bins − 1 degrees of freedom. */
  readonly chiSquare: number;
  /** Chance of a larger one if the ranks are uniform. */
  readonly pValue: number;
}

/**
 * @param ranks  Share of each posterior below its truth, 0 to 1.
 * @param bins   At least 2.
 * @throws       RangeError without ranks.
 */
export function rankStatistics(ranks: ArrayLike<number>, bins = 20): RankStatistics {
  const n = ranks.length;
  if (n === 0 || bins < 2) throw new RangeError(`${n} ranks in ${bins} bins`);
  const counts = new Array<number>(bins).fill(0);
  for (let i = 0; i < n; i++) counts[Math.min(bins - 1, Math.floor(ranks[i] * bins))]++;
  const expected = n / bins;
  const chiSquare = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
  return { n, bins: counts, chiSquare, pValue: chiSquareTail(chiSquare, bins - 1) };
}

/** Share of truths inside of the central interval of a coverage, from their ranks. */
export function coverageOf(ranks: ArrayLike<number>, coverage: number): number {
  const tail = (1 - coverage) / 2;
  let inside = 0;
  for (let i = 0; i < ranks.length; i++) if (ranks[i] >= tail && ranks[i] <= 1 - tail) inside++;
  return inside / ranks.length;
}

/**
 * Chance that a chi-square of some degrees of freedom is larger than x.
 *
 * Source: recurrence of the incomplete gamma function, DLMF 8.8.2, from its values at 1/2 and 1.
 */
export function chiSquareTail(x: number, degrees: number): number {
  const half = x / 2;
  const even = degrees % 2 === 0;
  let a = even ? 1 : 0.5;
  let tail = even ? Math.exp(-half) : complementaryError(Math.sqrt(half));
  let term = even
    ? Math.exp(-half) * half
    : (Math.exp(-half) * Math.sqrt(half) * 2) / Math.sqrt(Math.PI);
  for (; a + 1 <= degrees / 2; a++) {
    tail += term;
    term *= half / (a + 1);
  }
  return Math.min(1, tail);
}

const complementaryError = (x: number): number => 2 * normalCdf(-x * Math.SQRT2);
