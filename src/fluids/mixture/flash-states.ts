import { flashTP } from "./flash-tp.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork } from "./mixture-work.ts";
import {
  checkFeed,
  notConverged,
  onePhaseState,
  outsideLimits,
  twoPhaseState,
  type MixOutcome,
} from "./mix-state.ts";

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
  switch (flashTP(mix, z, T, p, work)) {
    case "one-phase":
      return onePhaseState(mix, work.feed, p);
    case "two-phase":
      return twoPhaseState(mix, z, work);
    case "no-density":
      return notConverged("rho", 0, work);
    case "not-converged":
      return notConverged("beta", work.beta, work);
  }
}
