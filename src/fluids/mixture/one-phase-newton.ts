import { densityRoot, type RootSide } from "./phase-density.ts";
import { mixtureR, type Mixture } from "./mixture.ts";
import type { MixtureWork, PhaseWork } from "./mixture-work.ts";
import { evaluateCaloric, evaluateIdealParts } from "./phase-caloric.ts";
import { evaluatePhase, placePhase } from "./phase-kernel.ts";

/** A pressure and a molar enthalpy or entropy. Pa; J/mol or J/(mol K). */
export interface CaloricGoal {
  readonly p: number;
  readonly quantity: "h" | "s";
  readonly value: number;
}

const maxIterations = 30;
const smallStep = 1e-9;
const limits = { lnT: 0.15, lnRho: 0.25 };

/**
 * Temperature at which one phase of composition z has a pressure and an enthalpy or entropy, by
 * Newton's method in ln T and ln ρ from work.T.
 *
 * @returns  Whether it converged, with work.T, and work.feed evaluated there. It may be metastable.
 *
 * Cost: one phase evaluation an iteration; allocates nothing.
 */
export function solveOnePhase(
  mix: Mixture,
  z: ArrayLike<number>,
  { p, quantity, value }: CaloricGoal,
  side: RootSide,
  work: MixtureWork,
): boolean {
  const { Tmin, Tmax } = mix.limits;
  const phase = work.feed;
  let rho = 0;
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    work.iterations = iteration;
    const { T } = work;
    placePhase(mix, phase, T, z);
    if (rho === 0) rho = densityAt(mix, phase, p, side);
    if (rho === 0) return false;
    evaluatePhase(mix, phase, rho);
    if (!(phase.D > 0)) return false;
    evaluateIdealParts(mix, phase, T);
    evaluateCaloric(mix, phase);
    const { Z, D, slopeT, cv } = phase;
    const RT = mixtureR * T;
    const offP = p / (rho * RT) - Z;
    const byH = quantity === "h";
    const off = byH ? (value - phase.h) / RT : (value - phase.s) / mixtureR;
    const byT = byH ? cv / mixtureR + slopeT : cv / mixtureR;
    const byRho = byH ? D - slopeT : -slopeT;
    const determinant = byT * D - byRho * slopeT;
    const stepT = (off * D - byRho * offP) / determinant;
    const stepRho = (byT * offP - slopeT * off) / determinant;
    const scale = Math.min(1, limits.lnT / Math.abs(stepT), limits.lnRho / Math.abs(stepRho));
    if (!Number.isFinite(scale)) return false;
    work.T = T * Math.exp(scale * stepT);
    rho *= Math.exp(scale * stepRho);
    if (!(work.T > 0.9 * Tmin && work.T < 1.1 * Tmax)) return false;
    if (Math.abs(stepT) < smallStep && Math.abs(stepRho) < smallStep) {
      placePhase(mix, phase, work.T, z);
      evaluatePhase(mix, phase, rho);
      return phase.D > 0;
    }
  }
  return false;
}

function densityAt(mix: Mixture, phase: PhaseWork, p: number, side: RootSide): number {
  const other = side === "liquid" ? "vapour" : "liquid";
  const delta = densityRoot(mix, phase, p, side) || densityRoot(mix, phase, p, other);
  return delta / phase.vr.value;
}
