import { findRoot } from "../numerics/index.ts";
import { chiSquareTail } from "./rank-statistics.ts";
import { studentHalfWidth } from "./student-t.ts";

/** One study's effect with its standard uncertainty. */
export interface StudyEffect {
  readonly effect: number;
  readonly u: number;
}

/** What several studies of the same thing say together. */
export interface RandomEffects {
  readonly studies: number;
  /** Mean effect over vehicles and testers, its standard error and 95 % interval. */
  readonly mean: number;
  readonly se: number;
  readonly interval: { readonly from: number; readonly to: number };
  /** Standard deviation between studies beyond their own uncertainty. */
  readonly tau: number;
  /** Share of the scatter that is between studies, 0 to 1. */
  readonly heterogeneity: number;
  /** Cochran's Q and the chance of a larger one if all studies had one effect. */
  readonly Q: number;
  readonly pHomogeneous: number;
  /** Where the effect of one more study would lie, 95 %; from three studies on. */
  readonly prediction?: { readonly from: number; readonly to: number };
  /** Share of each study in the mean. */
  readonly weights: readonly number[];
}

/**
 * Random-effects summary: between-study variance by Paule and Mandel, interval by Hartung and Knapp, never
 * narrower than the studies' own uncertainties allow.
 *
 * @param studies  At least two, each with u > 0.
 * @throws         RangeError for fewer, or for numbers that are not finite: the caller's bug.
 *
 * Source: Paule & Mandel, J. Res. NBS 87 (1982) 377; Hartung & Knapp, Stat. Med. 20 (2001) 3875, with the
 * correction of Röver, Knapp & Friede, BMC Med. Res. Methodol. 15 (2015) 99; prediction: Higgins, Thompson
 * & Spiegelhalter, J. R. Stat. Soc. A 172 (2009) 137
 */
export function randomEffects(studies: readonly StudyEffect[]): RandomEffects {
  const k = studies.length;
  if (k < 2 || studies.some(({ effect, u }) => !Number.isFinite(effect) || !(u > 0))) {
    throw new RangeError("a summary needs two studies with positive uncertainties");
  }
  const fixed = pooled(studies, 0);
  const tau2 = betweenVariance(studies, fixed.Q);
  const { mean, total, Q, weights } = pooled(studies, tau2);
  // Hartung and Knapp's factor can fall below 1 by chance; then the plain standard error stands.
  const se = Math.sqrt(Math.max(1, Q / (k - 1)) / total);
  const reach = studentHalfWidth(0.95, k - 1) * se;
  return {
    studies: k,
    mean,
    se,
    interval: { from: mean - reach, to: mean + reach },
    tau: Math.sqrt(tau2),
    heterogeneity: fixed.Q > 0 ? Math.max(0, 1 - (k - 1) / fixed.Q) : 0,
    Q: fixed.Q,
    pHomogeneous: chiSquareTail(fixed.Q, k - 1),
    ...(k >= 3 && { prediction: predicted(mean, Math.sqrt(tau2 + se ** 2), k - 2) }),
    weights,
  };
}

function predicted(mean: number, sd: number, degrees: number) {
  const reach = studentHalfWidth(0.95, degrees) * sd;
  return { from: mean - reach, to: mean + reach };
}

/** Weighted mean for a between-study variance, and how far the studies scatter about it. */
function pooled(studies: readonly StudyEffect[], tau2: number) {
  const w = studies.map(({ u }) => 1 / (u * u + tau2));
  const total = w.reduce((sum, one) => sum + one, 0);
  const mean = studies.reduce((sum, { effect }, i) => sum + w[i] * effect, 0) / total;
  const Q = studies.reduce((sum, { effect }, i) => sum + w[i] * (effect - mean) ** 2, 0);
  return { mean, total, Q, weights: w.map((one) => one / total) };
}

/** The variance at which the studies scatter as much as their weights expect; 0 when they scatter less. */
function betweenVariance(studies: readonly StudyEffect[], Q: number): number {
  const expected = studies.length - 1;
  if (Q <= expected) return 0;
  const effects = studies.map(({ effect }) => effect);
  const widest = (Math.max(...effects) - Math.min(...effects)) ** 2;
  const root = findRoot((tau2) => pooled(studies, tau2).Q - expected, 0, widest);
  if (root.kind === "failed") throw new RangeError(`no between-study variance: ${root.reason}`);
  return root.x;
}
