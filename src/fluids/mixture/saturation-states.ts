import type { Mixture } from "./mixture.ts";
import type { MixtureWork } from "./mixture-work.ts";
import {
  checkFeed,
  notConverged,
  outsideLimits,
  twoPhaseState,
  type MixFailure,
  type MixOutcome,
} from "./mix-state.ts";
import { findSaturation } from "./saturation-point.ts";
import type { SaturationTarget } from "./saturation-target.ts";

/**
 * Bubble point at a temperature: the liquid has composition z, the vapour is incipient.
 *
 * @param z  Mole fractions, ≥ 0, sum 1.
 * @param T  Temperature, K.
 * @returns  A two-phase state with beta 0, or why there is none.
 * @throws   RangeError for fractions or numbers that make no sense: the caller's bug.
 */
export function bubbleAtT(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return saturationState(mix, z, { quantity: "T", value: T, beta: 0 }, work);
}

/** Dew point at a temperature, that of low pressure where there are two; see {@link bubbleAtT}. */
export function dewAtT(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return saturationState(mix, z, { quantity: "T", value: T, beta: 1 }, work);
}

/** Bubble point at a pressure, Pa; see {@link bubbleAtT}. */
export function bubbleAtP(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return saturationState(mix, z, { quantity: "p", value: p, beta: 0 }, work);
}

/** Dew point at a pressure, Pa; see {@link bubbleAtT}. */
export function dewAtP(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return saturationState(mix, z, { quantity: "p", value: p, beta: 1 }, work);
}

/** Two phases at a temperature, K, and molar vapour fraction, 0 to 1; see {@link bubbleAtT}. */
export function mixStateTQ(
  mix: Mixture,
  z: ArrayLike<number>,
  T: number,
  beta: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return saturationState(mix, z, { quantity: "T", value: T, beta }, work);
}

/** Two phases at a pressure, Pa, and molar vapour fraction, 0 to 1; see {@link bubbleAtT}. */
export function mixStatePQ(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  beta: number,
  work: MixtureWork = mix.work,
): MixOutcome {
  return saturationState(mix, z, { quantity: "p", value: p, beta }, work);
}

function saturationState(
  mix: Mixture,
  z: ArrayLike<number>,
  target: SaturationTarget,
  work: MixtureWork,
): MixOutcome {
  const { quantity, value } = target;
  checkFeed(mix, z);
  const refused = refusal(mix, target);
  if (refused) return refused;
  const end = findSaturation(mix, z, target, work);
  switch (end.kind) {
    case "found":
      work.beta = target.beta;
      return twoPhaseState(mix, z, work);
    case "beyond-envelope": {
      const { range } = end;
      // A target inside the range that was followed past is a failure of ours, not of nature.
      if (range && value > range.from && value < range.to) {
        return notConverged(quantity, value, work);
      }
      const [from, to] = [range?.from ?? null, range?.to ?? null];
      return { kind: "failed", reason: "no-solution", quantity, value, from, to };
    }
    case "not-converged":
      return notConverged(quantity, value, work);
  }
}

function refusal(
  { limits }: Mixture,
  { quantity, value, beta }: SaturationTarget,
): MixFailure | undefined {
  return (
    outsideLimits("beta", beta, 0, 1) ??
    (quantity === "T"
      ? outsideLimits("T", value, limits.Tmin, limits.Tmax)
      : outsideLimits("p", value, 0, limits.pmax))
  );
}
