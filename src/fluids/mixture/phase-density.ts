import { A01, A02, A03 } from "../residual-kernel.ts";
import { mixtureR, type Mixture } from "./mixture.ts";
import type { PhaseWork } from "./mixture-work.ts";
import { evaluatePhaseInDelta } from "./phase-kernel.ts";

/** Halley's steps shrink with the third power: after one this small nothing is left to gain. */
const smallStep = 1e-7;
const maxIterations = 80;
/** Above this share of the reducing temperature a phase may have one root anywhere. */
const nearCritical = 0.97;
/** A bracket this narrow around a place of mechanical instability holds no root. */
const narrow = 1e-5;

export type RootSide = "liquid" | "vapour";

/**
 * Density at which a placed phase has a pressure, on the liquid's or the vapour's side.
 *
 * From the dense side p(ρ) is convex, from the dilute side concave, down or up to the place where
 * the phase becomes mechanically unstable; beyond it there is no root of that side. Where there is
 * one root only, both sides find it.
 *
 * @param phase  After `placePhase`.
 * @param from   Reduced density to start at; default an estimate.
 * @returns      Reduced density ρ/ρ_r, or 0 if this side has no root.
 *
 * Cost: three or four evaluations in density; allocates nothing.
 */
export function densityRoot(
  mix: Mixture,
  phase: PhaseWork,
  p: number,
  side: RootSide,
  from = 0,
): number {
  const target = (p * phase.vr.value) / (mixtureR * phase.T);
  const liquid = side === "liquid";
  const guess = liquid ? liquidGuess(phase) : vapourGuess(phase, target);
  // A liquid's start may not lie far below it: false roots are there.
  let delta = from > (liquid ? 0.85 * guess : 0) ? from : guess;
  let low = 0;
  let high = Infinity;
  const share = phase.T / phase.Tr.value;
  const guarded = hasTwoSides(phase);
  if (guarded) {
    if (liquid) low = liquidSpinodal(share);
    else high = 1.3 * vapourSpinodal(share);
    if (!(delta < 0.6 * high)) delta = 0.6 * high;
    if (!(delta > low)) delta = 1.1 * low;
  }
  let metUnstable = false;
  // On its own branch a vapour grows softer with density, a liquid stiffer.
  let [knownDelta, knownSlope] = [NaN, NaN];
  const { A } = phase;
  for (let iteration = 0; iteration < maxIterations; iteration++) {
    evaluatePhaseInDelta(mix, phase, delta);
    const value = delta * (1 + A[A01]) - target;
    const slope = 1 + 2 * A[A01] + A[A02];
    const jumped = guarded && (delta - knownDelta) * (slope - knownSlope) * (liquid ? -1 : 1) > 0;
    const stable = slope > 0 && !jumped && (liquid || !guarded || slope < 1);
    if (stable) {
      knownDelta = delta;
      knownSlope = slope;
    } else metUnstable = true;
    // An unstable density lies below the liquid's root and above the vapour's.
    if (stable ? value > 0 : !liquid) high = delta;
    else low = delta;
    let next = 0;
    if (stable) {
      const newton = -value / slope;
      const bend = (2 * A[A01] + 4 * A[A02] + A[A03]) / delta;
      // The parabola through this point misses the pressure by far: so will the branch.
      if (metUnstable && guarded && 2 * value * bend > 3 * slope * slope) return 0;
      const halley = 1 + (0.5 * newton * bend) / slope;
      const step = newton / Math.max(0.5, Math.min(2, halley));
      if (Math.abs(step) <= smallStep * delta) return delta + step;
      next = Math.max(0.6 * delta, Math.min(1.4 * delta, delta + step));
    }
    if (!(next > low && next < high)) {
      next = high < Infinity ? 0.5 * (low + high) : 1.1 * delta;
    }
    if (high - low < narrow * high) return 0;
    delta = next;
  }
  return 0;
}

/** Whether a placed phase is far enough below its critical temperature to tell liquid from vapour. */
export function hasTwoSides({ T, Tr }: PhaseWork): boolean {
  return T < nearCritical * Tr.value;
}

/**
 * Spinodal densities of van der Waals' equation, reduced: T/Tc = δ(3 − δ)²/4. Multiparameter
 * equations have false roots between them, which a search must not enter.
 */
function vapourSpinodal(share: number): number {
  return 2 + 2 * Math.cos(Math.acos(2 * share - 1) / 3 + (2 * Math.PI) / 3);
}

function liquidSpinodal(share: number): number {
  return 2 + 2 * Math.cos(Math.acos(2 * share - 1) / 3 - (2 * Math.PI) / 3);
}

/** Saturated-liquid density of a normal fluid, reduced. Source: Guggenheim, J. Chem. Phys. 13 (1945) 253 */
function liquidGuess({ Tr, T }: PhaseWork): number {
  const off = 1 - T / Tr.value;
  if (off <= 0.02) return 1.8;
  return 1.05 * (1 + 0.85 * off + 1.89 * Math.cbrt(off));
}

/** A compressibility factor that falls with the reduced pressure, as vapours' does. */
function vapourGuess({ Tr, T }: PhaseWork, target: number): number {
  const tau = Tr.value / T;
  // Second virial coefficient of simple fluids, roughly −1.2·τ² by critical volumes.
  return target * (1 + Math.min(0.4, 1.2 * tau * tau * target));
}

/** ln φ-consistent molar Gibbs energy of a phase over RT without its ideal part: Σ x·ψ − ln Z. */
export function residualGibbs(mix: Mixture, phase: PhaseWork, p: number): number {
  let sum = -Math.log(p / (phase.rho * mixtureR * phase.T));
  for (let i = 0; i < mix.n; i++) sum += phase.x[i] * phase.psi[i];
  return sum;
}

/** Relative change of density that would meet the pressure, to first order. */
export function densityError(phase: PhaseWork, p: number): number {
  return (p / (mixtureR * phase.T) / phase.rho - phase.Z) / phase.D;
}
