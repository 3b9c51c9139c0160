import { evaluateAtPressure, idealLnK, lnPhiOf, updateLnK } from "./k-values.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork } from "./mixture-work.ts";
import { vapourFraction } from "./rachford-rice.ts";
import { newtonSplit, splitFeed } from "./split-newton.ts";
import { evaluateFeed, isUnstable, testStability } from "./stability.ts";

/** What a flash at T, p left in `work`: one phase in `feed`, or two in `liquid` and `vapour`. */
export type FlashEnd = "one-phase" | "two-phase" | "no-density" | "not-converged";

/** Substitutions before Newton's method takes over; it alone decides when to end. */
const fewSubstitutions = 2;
const substitutionCounts = [fewSubstitutions, 12, 200];

/**
 * Splits a feed at T and p.
 *
 * Where ideal phases would coexist a split is tried at once and accepted if the feed, as one phase,
 * lies above its tangent plane; else the feed's stability is tested first. Successive substitution,
 * then Newton's method.
 *
 * @returns  Two phases: lnK, beta, T, p and the densities in `work`; one phase: evaluated in work.feed.
 *
 * Source: Michelsen, Fluid Phase Equilib. 9 (1982) 1 and 21
 */
export function flashTP(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  p: number,
  work: MixtureWork,
): FlashEnd {
  work.T = T;
  work.p = p;
  const root = evaluateFeed(mix, z, T, p, work);
  if (root === undefined) return "no-density";
  if (mix.n === 1) return "one-phase";
  idealLnK(mix, T, p, work.lnK);
  const beta = vapourFraction(mix.n, z, work.lnK);
  if (beta > 0.02 && beta < 0.98) {
    const split = solveSplit(mix, z, work, fewSubstitutions);
    if (split && feedIsAbove(mix, p, work)) return "two-phase";
  }
  work.T = T;
  work.p = p;
  if (testStability(mix, T, p, work) === "stable") return "one-phase";
  if (splitFromTrial(mix, z, T, p, work)) return "two-phase";
  for (const side of ["liquid", "vapour"] as const) {
    evaluateFeed(mix, z, T, p, work);
    const below = isUnstable(mix, { T, p, side, depth: "lowest" }, work);
    if (below && splitFromTrial(mix, z, T, p, work)) return "two-phase";
  }
  return "not-converged";
}

/** Splits from the K-values that a stability test left, with ever more substitutions first. */
function splitFromTrial(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  p: number,
  work: MixtureWork,
): boolean {
  work.kept.set(work.lnK);
  for (const count of substitutionCounts) {
    work.lnK.set(work.kept);
    work.T = T;
    work.p = p;
    if (solveSplit(mix, z, work, count)) return true;
  }
  return false;
}

/** Substitution, then Newton, from work.lnK; whether it ends with two phases inside the feed. */
function solveSplit(
  mix: Mixture,
  z: ArrayLike<number>,
  work: MixtureWork,
  substitutions: number,
): boolean {
  const { T, p, liquid, vapour } = work;
  for (let k = 0; k < substitutions; k++) {
    // Far from the solution all K may lie on one side of 1: then all but a trace is one phase.
    work.beta = Math.max(0, Math.min(1, vapourFraction(mix.n, z, work.lnK)));
    splitFeed(mix.n, z, work);
    if (evaluateAtPressure(mix, liquid, T, p, liquid.x, "liquid") === "none") return false;
    if (evaluateAtPressure(mix, vapour, T, p, vapour.x, "vapour") === "none") return false;
    if (updateLnK(mix, work, p) < 1e-7) break;
  }
  work.beta = Math.max(0, Math.min(1, vapourFraction(mix.n, z, work.lnK)));
  const end = newtonSplit(
    mix,
    z,
    [
      { quantity: "T", value: T },
      { quantity: "p", value: p },
    ],
    work,
  );
  return end === "converged" && work.beta >= 0 && work.beta <= 1;
}

/** Whether the feed as one phase lies above the tangent plane of the split just found. */
function feedIsAbove({ n }: Mixture, p: number, work: MixtureWork): boolean {
  const { feed, liquid, d } = work;
  let distance = 0;
  for (let i = 0; i < n; i++) {
    if (feed.x[i] === 0) continue;
    distance += feed.x[i] * (d[i] - Math.log(liquid.x[i]) - lnPhiOf(liquid, i, p));
  }
  return distance > 0;
}
