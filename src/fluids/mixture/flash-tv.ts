import { findRoot } from "../../numerics/index.ts";
import { flashTP, type FlashEnd } from "./flash-tp.ts";
import { mixtureR, type Mixture } from "./mixture.ts";
import type { MixtureWork } from "./mixture-work.ts";
import { evaluatePhase, placePhase } from "./phase-kernel.ts";
import { findSaturationDirectly } from "./saturation-point.ts";
import { newtonSplit, type SplitTarget } from "./split-newton.ts";
import { evaluateFeed, testStability } from "./stability.ts";

/** Lowest pressure of the search, Pa. */
const lowestPressure = 1e-3;

/**
 * Finds the equilibrium of a feed at a temperature and molar density.
 *
 * One phase if it is stable at the pressure it would have; else two, from bubble and dew point at T
 * or, where there are none, by a search in p with a full flash in each step.
 *
 * @returns  As flashTP, with work.p.
 */
export function flashTV(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  rho: number,
  work: MixtureWork,
): FlashEnd {
  const { feed } = work;
  work.T = T;
  placePhase(mix, feed, T, z);
  evaluatePhase(mix, feed, rho);
  const p = rho * mixtureR * T * feed.Z;
  if (feed.D > 0 && p > lowestPressure) {
    const root = evaluateFeed(mix, z, T, p, work);
    const same = Math.abs(feed.rho / rho - 1) < 1e-6;
    if (root !== undefined && same && testStability(mix, T, p, work) === "stable") {
      // The density asked for, not the one found again from its pressure.
      placePhase(mix, feed, T, z);
      evaluatePhase(mix, feed, rho);
      work.p = p;
      return "one-phase";
    }
  }
  if (fromSaturation(mix, z, T, rho, work)) return "two-phase";
  return searchPressure(mix, z, T, rho, work);
}

function fromSaturation(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  rho: number,
  work: MixtureWork,
): boolean {
  if (!findSaturationDirectly(mix, z, { quantity: "T", value: T, beta: 0 }, work)) return false;
  const bubble = { lnP: Math.log(work.p), v: 1 / work.liquid.rho };
  work.kept.set(work.lnK);
  if (!findSaturationDirectly(mix, z, { quantity: "T", value: T, beta: 1 }, work)) return false;
  const dew = { lnP: Math.log(work.p), v: 1 / work.vapour.rho };
  const share = Math.max(0, Math.min(1, (1 / rho - bubble.v) / (dew.v - bubble.v)));
  for (let i = 0; i < mix.n; i++) {
    work.lnK[i] = (1 - share) * work.kept[i] + share * work.lnK[i];
  }
  work.p = Math.exp((1 - share) * bubble.lnP + share * dew.lnP);
  work.beta = share;
  work.liquid.rho = 0;
  work.vapour.rho = 0;
  return solveTwoPhases(mix, z, T, rho, work);
}

function solveTwoPhases(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  rho: number,
  work: MixtureWork,
): boolean {
  work.T = T;
  const targets: readonly [SplitTarget, SplitTarget] = [
    { quantity: "T", value: T },
    { quantity: "v", value: 1 / rho },
  ];
  if (newtonSplit(mix, z, targets, work) !== "converged") return false;
  return work.beta >= 0 && work.beta <= 1 && work.p > 0;
}

/** The volume falls with rising pressure at equilibrium: a bracketed search in ln p. */
function searchPressure(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  rho: number,
  work: MixtureWork,
): FlashEnd {
  let ended: FlashEnd | undefined;
  const end = (): FlashEnd | undefined => ended;
  const miss = (lnP: number): number => {
    if (ended !== undefined) return 0;
    const found = flashTP(mix, z, T, Math.exp(lnP), work);
    if (found === "one-phase") return Math.log(work.feed.rho / rho);
    if (found === "two-phase") {
      const { beta, liquid, vapour } = work;
      const v = (1 - beta) / liquid.rho + beta / vapour.rho;
      // A split at a pressure nearby is a start for Newton's method at the volume itself.
      if (!solveTwoPhases(mix, z, T, rho, work)) return -Math.log(v * rho);
    }
    ended = found;
    return 0;
  };
  // Up from below: near pmax a blend may have a critical point that stops the flash.
  let [low, high] = [Math.log(lowestPressure), Math.log(0.1 * rho * mixtureR * T)];
  const top = Math.log(mix.limits.pmax);
  high = Math.max(low + 1, Math.min(high, top));
  while (miss(high) < 0 && high < top) [low, high] = [high, Math.min(top, high + 1)];
  const early = end();
  if (early !== undefined) return early;
  const root = findRoot(miss, low, high);
  if (root.kind === "failed") return "not-converged";
  return end() ?? flashTP(mix, z, T, Math.exp(root.x), work);
}
