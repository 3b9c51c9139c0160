import { flashCaloric } from "./flash-caloric.ts";
import { flashTP, type FlashEnd } from "./flash-tp.ts";
import { flashTV } from "./flash-tv.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork } from "./mixture-work.ts";
import {
  checkFeed,
  notConverged,
  onePhaseState,
  outsideLimits,
  twoPhaseState,
  type MixOutcome,
  type MixQuantity,
} from "./mix-state.ts";
import type { CaloricGoal } from "./one-phase-newton.ts";

/**
 * State at a temperature and pressure: one phase, or liquid and vapour in equilibrium.
 *
 * @param z     Mole fractions, ≥ 0, sum 1.
 * @param T, p  K, Pa.
 * @returns     A state, or why there is none.
 * @throws      RangeError for fractions or numbers that make no sense: the caller's bug.
 *
 * Limits: two fluid phases; a second liquid is not sought.
 */
export function mixStateTP(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  p: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  checkFeed(mix, z);
  const { Tmin, Tmax, pmax } = mix.limits;
  const refused = outsideLimits("T", T, Tmin, Tmax) ?? outsideLimits("p", p, 0, pmax);
  if (refused) return refused;
  return outcome(mix, z, flashTP(mix, z, T, p, work), { quantity: "p", value: p }, work);
}

/** State at a pressure, Pa, and molar enthalpy, J/mol; otherwise as {@link mixStateTP}. */
export function mixStatePH(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  h: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return caloricState(mix, z, { p, quantity: "h", value: h }, work);
}

/** State at a pressure, Pa, and molar entropy, J/(mol K); otherwise as {@link mixStateTP}. */
export function mixStatePS(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  s: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return caloricState(mix, z, { p, quantity: "s", value: s }, work);
}

function caloricState(
  mix: Mixture,
  z: ArrayLike<number>,
  goal: CaloricGoal,
  work: MixtureWork,
): MixOutcome {
  checkFeed(mix, z);
  const { p, quantity, value } = goal;
  const refused =
    outsideLimits("p", p, 0, mix.limits.pmax) ??
    outsideLimits(quantity, value, -Infinity, Infinity);
  if (refused) return refused;
  const end = flashCaloric(mix, z, goal, work);
  if (typeof end !== "string") {
    const { from, to } = end;
    return { kind: "failed", reason: "out-of-range", quantity, value, from, to };
  }
  return outcome(mix, z, end, { quantity, value }, work);
}

/**
 * State at a temperature, K, and molar density, mol/m³; otherwise as {@link mixStateTP}.
 *
 * For a vessel of volume V that holds n mol, ρ = n/V.
 */
export function mixStateTRho(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  rho: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  checkFeed(mix, z);
  const { Tmin, Tmax, pmax } = mix.limits;
  const refused =
    outsideLimits("T", T, Tmin, Tmax) ?? outsideLimits("rho", rho, Number.MIN_VALUE, Infinity);
  if (refused) return refused;
  const end = flashTV(mix, z, T, rho, work);
  const solved = end === "one-phase" || end === "two-phase";
  const tooHigh = solved ? outsideLimits("p", work.p, 0, pmax) : undefined;
  return tooHigh ?? outcome(mix, z, end, { quantity: "rho", value: rho }, work);
}

function outcome(
  mix: Mixture,
  z: ArrayLike<number>,
  end: FlashEnd,
  asked: { readonly quantity: MixQuantity; readonly value: number },
  work: MixtureWork,
): MixOutcome {
  switch (end) {
    case "one-phase":
      return onePhaseState(mix, work.feed, work.p);
    case "two-phase":
      return twoPhaseState(mix, z, work);
    case "no-density":
    case "not-converged":
      return notConverged(asked.quantity, asked.value, work);
  }
}
