import type { PureFluid } from "../pure-fluid.ts";
import { pressureAt, xAt } from "../saturation-model.ts";
import type { Mixture } from "./mixture.ts";
import type { MixtureWork, PhaseWork } from "./mixture-work.ts";
import { densityRoot, type RootSide } from "./phase-density.ts";
import { evaluatePhase, placePhase } from "./phase-kernel.ts";
import { mixtureR } from "./mixture.ts";

/**
 * ln of the saturation pressure of a pure fluid, extrapolated beyond its critical point.
 *
 * Source of the extrapolation: Wilson, 65th AIChE meeting, 1968
 */
export function lnVolatility({ saturation, critical, info }: PureFluid, T: number): number {
  if (T < critical.T) return Math.log(pressureAt(saturation, xAt(saturation, T)));
  return Math.log(critical.p) + 5.373 * (1 + info.acentric) * (1 - critical.T / T);
}

/** ln K of ideal phases at T and p. */
export function idealLnK(mix: Mixture, T: number, p: number, lnK: Float64Array): void {
  const lnP = Math.log(p);
  for (let i = 0; i < mix.n; i++) lnK[i] = lnVolatility(mix.fluids[i], T) - lnP;
}

/** Pressure at which an ideal mixture begins to boil (β = 0) or to condense (β = 1). */
export function idealPressure(mix: Mixture, z: ArrayLike<number>, T: number, beta: number): number {
  let [bubble, dew] = [0, 0];
  for (let i = 0; i < mix.n; i++) {
    const volatility = Math.exp(lnVolatility(mix.fluids[i], T));
    bubble += z[i] * volatility;
    dew += z[i] / volatility;
  }
  return (1 - beta) * bubble + beta / dew;
}

/** Temperature at which {@link idealPressure} has a value, held inside the limits of the mixture. */
export function idealTemperature(
  mix: Mixture,
  z: ArrayLike<number>,
  p: number,
  beta: number,
): number {
  const { Tmin, Tmax } = mix.limits;
  const lnP = Math.log(p);
  const miss = (T: number): number => Math.log(idealPressure(mix, z, T, beta)) - lnP;
  // ln p is nearly straight in 1/T: the secant rule in 1/T.
  let [low, high] = [Tmin, Tmax];
  if (miss(low) >= 0) return low;
  if (miss(high) <= 0) return high;
  let [u1, u2] = [1 / 280, 1 / 300];
  let [f1, f2] = [miss(280), miss(300)];
  for (let k = 0; k < 12 && Math.abs(f2) > 1e-6 && f1 !== f2; k++) {
    const u = u2 - (f2 * (u2 - u1)) / (f2 - f1);
    const T = Math.min(high, Math.max(low, u > 0 ? 1 / u : high));
    [u1, f1] = [u2, f2];
    [u2, f2] = [1 / T, miss(T)];
    if (f2 < 0) low = T;
    else high = T;
  }
  return 1 / u2;
}

/** ln φ_i + ln x_i is not needed: ln φ_i of an evaluated phase at a pressure it meets. */
export function lnPhiOf(phase: PhaseWork, i: number, p: number): number {
  return phase.psi[i] - Math.log(p / (phase.rho * mixtureR * phase.T));
}

/**
 * Places a phase and evaluates it at the density root of a side, or else of the other one.
 *
 * @param from  Density of that side in a state nearby, mol/m³; 0 if none is known.
 * @returns     The side of the root, `none` if there is none at all.
 */
export function evaluateAtPressure(
  mix: Mixture,
  phase: PhaseWork,
  T: number,
  p: number,
  x: ArrayLike<number>,
  side: RootSide,
  from = 0,
): RootSide | "none" {
  placePhase(mix, phase, T, x);
  const other = side === "liquid" ? "vapour" : "liquid";
  const wanted = densityRoot(mix, phase, p, side, from * phase.vr.value);
  const delta = wanted || densityRoot(mix, phase, p, other);
  if (delta === 0) return "none";
  evaluatePhase(mix, phase, delta / phase.vr.value);
  return wanted > 0 ? side : other;
}

/** ln K from the fugacity coefficients of both evaluated phases; returns the largest change. */
export function updateLnK(mix: Mixture, work: MixtureWork, p: number): number {
  const { liquid, vapour, lnK } = work;
  let largest = 0;
  for (let i = 0; i < mix.n; i++) {
    const value = lnPhiOf(liquid, i, p) - lnPhiOf(vapour, i, p);
    largest = Math.max(largest, Math.abs(value - lnK[i]));
    lnK[i] = value;
  }
  return largest;
}
