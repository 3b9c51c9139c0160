import { flashTP, type FlashEnd } from "./flash-tp.ts";
import { evaluateAtPressure, idealTemperature, lnPhiOf } from "./k-values.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork, PhaseWork } from "./mixture-work.ts";
import { solveOnePhase, type CaloricGoal } from "./one-phase-newton.ts";
import { evaluateCaloric, evaluateIdealParts } from "./phase-caloric.ts";
import { densityRoot, type RootSide } from "./phase-density.ts";
import { evaluatePhase, placePhase } from "./phase-kernel.ts";
import { findSaturationDirectly } from "./saturation-point.ts";
import { newtonSplit, splitFeed, type SplitTarget } from "./split-newton.ts";
import { evaluateFeed, testStability } from "./stability.ts";

/** Either the end of a flash, or the limits of T whose values do not enclose the goal. */
export type CaloricEnd =
  FlashEnd | { readonly kind: "out-of-range"; readonly from: number; readonly to: number };

/**
 * Finds the equilibrium of a feed at a pressure and an enthalpy or entropy.
 *
 * Bubble and dew point at the pressure tell the phase and start Newton's method; a single phase is
 * accepted only if its stability test agrees. Where that does not succeed (near and above the
 * critical pressure, where the envelope bends back) the temperature is searched between the limits
 * with a full flash in each step: at equilibrium h and s rise with T at constant p.
 *
 * @returns  As flashTP.
 */
export function flashCaloric(
  mix: Mixture,
  z: ArrayLike<number>,
  goal: CaloricGoal,
  work: MixtureWork,
): CaloricEnd {
  return (
    clearlyOnePhase(mix, z, goal, work) ??
    fromSaturation(mix, z, goal, work) ??
    searchTemperature(mix, z, goal, work)
  );
}

/** Tries one phase where the value lies outside those of an ideal mixture's bubble and dew point. */
function clearlyOnePhase(
  mix: Mixture,
  z: ArrayLike<number>,
  goal: CaloricGoal,
  work: MixtureWork,
): FlashEnd | undefined {
  const { p, quantity, value } = goal;
  for (const side of ["vapour", "liquid"] as const) {
    const T = idealTemperature(mix, z, p, side === "vapour" ? 1 : 0);
    if (evaluateAtPressure(mix, work.feed, T, p, z, side) !== side) continue;
    const limit = valueOf(mix, work.feed, quantity);
    if (side === "vapour" ? value < limit : value > limit) continue;
    work.T = T;
    return onePhase(mix, z, goal, side, work);
  }
  return undefined;
}

function fromSaturation(
  mix: Mixture,
  z: ArrayLike<number>,
  goal: CaloricGoal,
  work: MixtureWork,
): FlashEnd | undefined {
  const { p, value } = goal;
  if (!findSaturationDirectly(mix, z, { quantity: "p", value: p, beta: 0 }, work)) return undefined;
  const bubbleT = work.T;
  const low = feedValue(mix, z, work.liquid, goal, work);
  if (value <= low) return onePhase(mix, z, goal, "liquid", work);
  // Over most of the dome Newton's method needs no dew point: the vapour's enthalpy is nearly known.
  const guess = (value - low) / (valueOf(mix, work.vapour, goal.quantity) - low);
  work.kept.set(work.lnK);
  if (guess > 0 && guess < 0.8) {
    work.beta = guess;
    if (solveTwoPhases(mix, z, goal, work)) return "two-phase";
  }
  if (!findSaturationDirectly(mix, z, { quantity: "p", value: p, beta: 1 }, work)) return undefined;
  const high = feedValue(mix, z, work.vapour, goal, work);
  if (value >= high) return onePhase(mix, z, goal, "vapour", work);
  const share = (value - low) / (high - low);
  for (let i = 0; i < mix.n; i++) {
    work.lnK[i] = (1 - share) * work.kept[i] + share * work.lnK[i];
  }
  work.T = bubbleT + share * (work.T - bubbleT);
  work.beta = share;
  work.liquid.rho = 0;
  work.vapour.rho = 0;
  return solveTwoPhases(mix, z, goal, work) ? "two-phase" : undefined;
}

/** h or s of a saturated feed whose phase a saturation solver left in `phase`. */
function feedValue(
  mix: Mixture,
  z: ArrayLike<number>,
  phase: PhaseWork,
  { quantity }: CaloricGoal,
  work: MixtureWork,
): number {
  placePhase(mix, phase, work.T, z);
  evaluatePhase(mix, phase, phase.rho);
  return valueOf(mix, phase, quantity);
}

function valueOf(mix: Mixture, phase: PhaseWork, quantity: "h" | "s"): number {
  evaluateIdealParts(mix, phase, phase.T);
  evaluateCaloric(mix, phase);
  return quantity === "h" ? phase.h : phase.s;
}

function onePhase(
  mix: Mixture,
  z: ArrayLike<number>,
  goal: CaloricGoal,
  side: RootSide,
  work: MixtureWork,
): FlashEnd | undefined {
  const { Tmin, Tmax } = mix.limits;
  if (!solveOnePhase(mix, z, goal, side, work)) return undefined;
  if (work.T < Tmin || work.T > Tmax) return undefined;
  return isEquilibrium(mix, z, goal.p, work) ? "one-phase" : undefined;
}

/** Whether the phase in work.feed is the stable one at its T and p; it is left evaluated there. */
function isEquilibrium(mix: Mixture, z: ArrayLike<number>, p: number, work: MixtureWork): boolean {
  const { T, feed } = work;
  const { rho } = feed;
  if (evaluateFeed(mix, z, T, p, work) === undefined) return false;
  if (Math.abs(feed.rho / rho - 1) > 1e-6) return false;
  if (testStability(mix, T, p, work) !== "stable") return false;
  work.p = p;
  return true;
}

function solveTwoPhases(
  mix: Mixture,
  z: ArrayLike<number>,
  { p, quantity, value }: CaloricGoal,
  work: MixtureWork,
): boolean {
  work.p = p;
  const targets: readonly [SplitTarget, SplitTarget] = [
    { quantity: "p", value: p },
    { quantity, value },
  ];
  if (newtonSplit(mix, z, targets, work) !== "converged") return false;
  const { Tmin, Tmax } = mix.limits;
  return work.beta >= 0 && work.beta <= 1 && work.T >= Tmin && work.T <= Tmax;
}

const maxSearch = 100;
/** Below this width of the bracket liquid and vapour of the feed's composition start a split. */
const narrow = 1e-3;

/** Bracketed search in T; Newton's methods are tried from every state met. */
function searchTemperature(
  mix: Mixture,
  z: ArrayLike<number>,
  goal: CaloricGoal,
  work: MixtureWork,
): CaloricEnd {
  const { p, value } = goal;
  let [low, high] = [mix.limits.Tmin, mix.limits.Tmax];
  const ends = [low, high].map((T) => equilibriumValue(mix, z, { ...goal, T }, work));
  const [atLow, atHigh] = ends;
  if (atLow === undefined || atHigh === undefined) return "no-density";
  if (value < atLow || value > atHigh) return { kind: "out-of-range", from: atLow, to: atHigh };
  let T = 0.5 * (low + high);
  for (let step = 0; step < maxSearch; step++) {
    const found = equilibriumValue(mix, z, { ...goal, T }, work);
    if (found === undefined) return "no-density";
    if (found > value) high = T;
    else low = T;
    const two = work.beta >= 0;
    if (two) {
      if (solveTwoPhases(mix, z, goal, work)) return "two-phase";
    } else {
      const side = work.feed.rho * work.feed.vr.value > 1 ? "liquid" : "vapour";
      work.T = T;
      if (solveOnePhase(mix, z, goal, side, work) && work.T > low && work.T < high) {
        T = work.T;
        if (isEquilibrium(mix, z, p, work)) return "one-phase";
        work.T = T;
      }
    }
    if (high - low < narrow * low && startFromFeed(mix, z, goal, 0.5 * (low + high), work)) {
      if (solveTwoPhases(mix, z, goal, work)) return "two-phase";
    }
    if (high - low < 1e-14 * low) return "not-converged";
    // A Newton step that stayed inside is the next guess; every second step halves the bracket.
    T = step % 2 === 0 && work.T > low && work.T < high ? work.T : 0.5 * (low + high);
  }
  return "not-converged";
}

/** h or s at equilibrium at T and p; work.beta is −1 with one phase. */
function equilibriumValue(
  mix: Mixture,
  z: ArrayLike<number>,
  { T, p, quantity }: CaloricGoal & { readonly T: number },
  work: MixtureWork,
): number | undefined {
  const end = flashTP(mix, z, T, p, work);
  if (end === "one-phase") {
    work.beta = -1;
    return valueOf(mix, work.feed, quantity);
  }
  if (end !== "two-phase") return undefined;
  const { liquid, vapour, beta } = work;
  splitFeed(mix.n, z, work);
  placePhase(mix, liquid, work.T, liquid.x);
  evaluatePhase(mix, liquid, liquid.rho);
  placePhase(mix, vapour, work.T, vapour.x);
  evaluatePhase(mix, vapour, vapour.rho);
  return (1 - beta) * valueOf(mix, liquid, quantity) + beta * valueOf(mix, vapour, quantity);
}

/** ln K and β from liquid and vapour of the feed's own composition: near an azeotrope they do. */
function startFromFeed(
  mix: Mixture,
  z: ArrayLike<number>,
  { p, quantity, value }: CaloricGoal,
  T: number,
  work: MixtureWork,
): boolean {
  const { liquid, vapour, lnK } = work;
  for (const [phase, side] of [
    [liquid, "liquid"],
    [vapour, "vapour"],
  ] as const) {
    placePhase(mix, phase, T, z);
    const delta = densityRoot(mix, phase, p, side);
    if (delta === 0) return false;
    evaluatePhase(mix, phase, delta / phase.vr.value);
  }
  for (let i = 0; i < mix.n; i++) lnK[i] = lnPhiOf(liquid, i, p) - lnPhiOf(vapour, i, p);
  const [l, v] = [valueOf(mix, liquid, quantity), valueOf(mix, vapour, quantity)];
  work.T = T;
  work.beta = Math.max(0, Math.min(1, (value - l) / (v - l)));
  return v > l;
}
