import { phasesAreNamed, traceEnvelope } from "./envelope.ts";
import {
  evaluateAtPressure,
  idealLnK,
  idealPressure,
  idealTemperature,
  updateLnK,
} from "./k-values.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork } from "./mixture-work.ts";
import { targetsOf, type SaturationEnd, type SaturationTarget } from "./saturation-target.ts";
import { newtonSplit, splitFeed } from "./split-newton.ts";

const found: SaturationEnd = { kind: "found" };
/** Changes of ln p and ln T in one substitution are held below these. */
const longestLnP = 0.7;
/** d ln K/d ln T of fluids near their normal boiling point, by Trouton's rule. */
const trouton = 10;

/**
 * Finds a bubble point (beta 0), dew point (beta 1) or a given vapour fraction between.
 *
 * From ideal phases Newton's method is tried at once, then after substitutions, then the phase
 * envelope is followed from low pressure. Of several solutions the one of low pressure is found.
 *
 * @returns  With `found`: lnK, beta, T, p and densities in `work`.
 *
 * Source: Michelsen and Mollerup, Thermodynamic Models, 2nd ed., 2007, chapter 12
 */
export function findSaturation(
  mix: Mixture,
  z: ArrayLike<number>,
  target: SaturationTarget,
  work: MixtureWork,
): SaturationEnd {
  for (const count of [1, 8, 25]) {
    if (startIdeal(mix, z, target, work) && attempt(mix, z, target, work, count)) return found;
  }
  return traceEnvelope(mix, z, target, work);
}

/** {@link findSaturation} without its last resort: whether the point was found at once. */
export function findSaturationDirectly(
  mix: Mixture,
  z: ArrayLike<number>,
  target: SaturationTarget,
  work: MixtureWork,
): boolean {
  return startIdeal(mix, z, target, work) && attempt(mix, z, target, work, 1);
}

function startIdeal(
  mix: Mixture,
  z: ArrayLike<number>,
  { quantity, value, beta }: SaturationTarget,
  work: MixtureWork,
): boolean {
  const { Tmin, Tmax, pmax } = mix.limits;
  work.T = quantity === "T" ? value : idealTemperature(mix, z, value, beta);
  work.p = quantity === "p" ? value : Math.min(pmax, idealPressure(mix, z, value, beta));
  work.beta = beta;
  idealLnK(mix, work.T, work.p, work.lnK);
  return work.T >= Tmin && work.T <= Tmax && work.p > 0;
}

function attempt(
  mix: Mixture,
  z: ArrayLike<number>,
  target: SaturationTarget,
  work: MixtureWork,
  substitutions: number,
): boolean {
  const { liquid, vapour } = work;
  for (let k = 0; k < substitutions; k++) {
    splitFeed(mix.n, z, work);
    if (evaluateAtPressure(mix, liquid, work.T, work.p, liquid.x, "liquid") === "none")
      return false;
    if (evaluateAtPressure(mix, vapour, work.T, work.p, vapour.x, "vapour") === "none")
      return false;
    updateLnK(mix, work, work.p);
    if (substitutions > 1 && Math.abs(adjust(mix, z, target, work)) < 1e-3) break;
  }
  const end = newtonSplit(mix, z, targetsOf(target, target.beta), work);
  return end === "converged" && phasesAreNamed(mix, work);
}

/** Moves the free one of p and T so that Σy = Σx for the new K; returns ln(Σy/Σx). */
function adjust(
  { n, limits }: Mixture,
  z: ArrayLike<number>,
  { quantity, beta }: SaturationTarget,
  work: MixtureWork,
): number {
  let [sumL, sumV] = [0, 0];
  for (let i = 0; i < n; i++) {
    const K = Math.exp(work.lnK[i]);
    const x = z[i] / (1 - beta + beta * K);
    sumL += x;
    sumV += K * x;
  }
  const excess = Math.log(sumV / sumL);
  const step = Math.max(-longestLnP, Math.min(longestLnP, excess));
  if (quantity === "T") work.p = Math.min(limits.pmax, work.p * Math.exp(step));
  else {
    const T = work.T * Math.exp(-step / trouton);
    work.T = Math.max(limits.Tmin, Math.min(limits.Tmax, T));
  }
  for (let i = 0; i < n; i++) work.lnK[i] -= step;
  return excess;
}
