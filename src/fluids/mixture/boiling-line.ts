import { mixStatePH } from "./flash-states.ts";
import type { Mixture } from "./mixture.ts";
import { createMixtureWork, type MixtureWork } from "./mixture-work.ts";
import { twoPhaseState, type MixFailure, type MixState } from "./mix-state.ts";
import { bubbleAtP, dewAtP } from "./saturation-states.ts";
import { newtonSplit } from "./split-newton.ts";

/**
 * States from bubble to dew point at one pressure, in equal steps of enthalpy.
 *
 * Each split starts from its neighbour; where that fails the flash starts from nothing.
 *
 * @param z      Mole fractions, ≥ 0, sum 1.
 * @param p      Pressure, Pa.
 * @param steps  Number of steps, ≥ 1.
 * @returns      steps + 1 states with two phases each, or the first failure.
 * @throws       RangeError for fractions or numbers that make no sense: the caller's bug.
 */
export function boilingLine(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  steps: number,
  work: MixtureWork = createMixtureWork(mix),
): readonly MixState[] | MixFailure {
  const dew = dewAtP(mix, z, p, work);
  if (dew.kind === "failed") return dew;
  const bubble = bubbleAtP(mix, z, p, work);
  if (bubble.kind === "failed") return bubble;
  const states: MixState[] = [bubble];
  for (let k = 1; k < steps; k++) {
    const h = bubble.h + (k / steps) * (dew.h - bubble.h);
    const end = newtonSplit(
      mix,
      z,
      [
        { quantity: "p", value: p },
        { quantity: "h", value: h },
      ],
      work,
    );
    const followed = end === "converged" && work.beta > 0 && work.beta < 1;
    const state = followed ? twoPhaseState(mix, z, work) : mixStatePH(mix, z, p, h, work);
    if (state.kind === "failed") return state;
    states.push(state);
  }
  states.push(dew);
  return states;
}
