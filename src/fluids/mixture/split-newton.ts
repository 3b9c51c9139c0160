import { solveLinear } from "../../numerics/index.ts";
import { mixtureR, type Mixture } from "./mixture.ts";
import type { MixtureWork, PhaseWork } from "./mixture-work.ts";
import { evaluateCaloric, evaluateIdealParts, evaluatePartialCaloric } from "./phase-caloric.ts";
import { densityError, densityRoot, type RootSide } from "./phase-density.ts";
import { fillBulk } from "./split-bulk.ts";
import { evaluateFugacityDerivatives, evaluatePhase, placePhase } from "./phase-kernel.ts";

/** One of the two quantities that fix a split; `lnK` fixes that of component `index`. */
export interface SplitTarget {
  readonly quantity: "T" | "p" | "beta" | "h" | "s" | "v" | "lnK";
  readonly value: number;
  readonly index?: number;
}

export type SplitEnd = "converged" | "trivial" | "no-phase" | "singular" | "too-many-iterations";

/** After a step this small nothing is left to gain. */
const smallStep = 3e-9;
/** Newton's steps shrink quadratically: what two of them say the next would be, small enough. */
const smallNext = 1e-13;
const [quadraticFrom, quadraticTo] = [0.05, 1e-4];
const maxIterationsDefault = 25;
/** A density farther than this from its pressure is solved for instead of carried along. */
const farDensity = 0.08;
/** Phases that differ less than this in every ln K and in density are one. */
const trivialLnK = 1e-6;

/**
 * Solves for two phases in equilibrium by Newton's method, from the state in `work`.
 *
 * Unknowns: ln K_i, β, ln T, ln p, with both densities carried along by the linearised equation of
 * state. Equations: equal fugacities, Σ(y − x) = 0 and two targets. It serves bubble and dew points
 * (β = 0 or 1), flashes at (T,p), (p,h), (p,s), (T,v) and steps along a phase envelope alike.
 *
 * @param z     Feed, sum 1.
 * @param work  In and out: lnK, beta, T, p, and the densities of `liquid` and `vapour` (0: not known).
 *
 * Cost: two phase evaluations and a linear system of n + 3 an iteration; allocates nothing.
 * Source: Michelsen and Mollerup, Thermodynamic Models, 2nd ed., 2007, chapters 10 to 14
 */
export function newtonSplit(
  mix: Mixture,
  z: ArrayLike<number>,
  targets: readonly [SplitTarget, SplitTarget],
  work: MixtureWork,
  maxIterations = maxIterationsDefault,
): SplitEnd {
  const { n } = mix;
  const { liquid, vapour, matrix, right } = work;
  const size = n + 3;
  const caloric = targets.some(({ quantity }) => quantity === "h" || quantity === "s");
  let before = Infinity;
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    work.iterations = iteration;
    splitFeed(n, z, work);
    if (!settlePhase(mix, liquid, work, "liquid")) return "no-phase";
    if (!settlePhase(mix, vapour, work, "vapour")) return "no-phase";
    if (caloric) {
      evaluateCaloricOf(mix, liquid, vapour);
      evaluateCaloricOf(mix, vapour, undefined);
    }
    fillEquilibrium(mix, z, work);
    fillTarget(mix, z, targets[0], n + 1, work);
    fillTarget(mix, z, targets[1], n + 2, work);
    if (!solveLinear(size, matrix, right)) return "singular";
    const largest = applyStep(mix, z, work);
    if (!Number.isFinite(largest)) return "singular";
    if (isTrivial(n, work)) return "trivial";
    if (largest < smallStep) return "converged";
    const next = (largest * largest * largest) / (before * before);
    if (before < quadraticFrom && largest < quadraticTo && next < smallNext) return "converged";
    before = largest;
  }
  return "too-many-iterations";
}

/** The ideal parts depend on T alone: the vapour takes them from the liquid. */
function evaluateCaloricOf(mix: Mixture, phase: PhaseWork, share: PhaseWork | undefined): void {
  if (share) {
    evaluateIdealParts(mix, phase, phase.T);
    share.ideal.set(phase.ideal);
  }
  evaluateCaloric(mix, phase);
  evaluatePartialCaloric(mix, phase);
}

/** Unnormalised phase compositions x = z/(1 − β + βK), y = Kx into `psi` places of the phases' x. */
export function splitFeed(n: number, z: ArrayLike<number>, work: MixtureWork): void {
  const { lnK, beta, liquid, vapour } = work;
  for (let i = 0; i < n; i++) {
    const K = Math.exp(lnK[i]);
    const x = z[i] / (1 - beta + beta * K);
    liquid.x[i] = x;
    vapour.x[i] = x * K;
  }
}

/** Places a phase at T and its x and evaluates it at its density, solved for where it is far off. */
function settlePhase(mix: Mixture, phase: PhaseWork, work: MixtureWork, side: RootSide): boolean {
  const { T, p } = work;
  placePhase(mix, phase, T, phase.x);
  let known = false;
  if (phase.rho > 0) {
    evaluatePhase(mix, phase, phase.rho);
    known = phase.D > 0 && Math.abs(densityError(phase, p)) < farDensity;
  }
  if (!known) {
    const other = side === "liquid" ? "vapour" : "liquid";
    const delta = densityRoot(mix, phase, p, side) || densityRoot(mix, phase, p, other);
    if (delta === 0) return false;
    evaluatePhase(mix, phase, delta / phase.vr.value);
  }
  evaluateFugacityDerivatives(mix, phase);
  return phase.D > 0;
}

/** ln φ_i at the pressure wanted, to first order in the density's error. */
export function lnPhiAt(phase: PhaseWork, i: number, p: number, error: number): number {
  return phase.psi[i] + phase.Pi[i] * error - Math.log(p / (phase.rho * mixtureR * phase.T));
}

/** Fills the rows of equal fugacity and of Σ(y − x) = 0, and the right side. */
function fillEquilibrium(mix: Mixture, z: ArrayLike<number>, work: MixtureWork): void {
  const { n } = mix;
  const { matrix, right, lnK, beta, liquid, vapour, p } = work;
  const size = n + 3;
  const errorL = densityError(liquid, p);
  const errorV = densityError(vapour, p);
  const pressL = p / (liquid.rho * mixtureR * liquid.T) / liquid.D;
  const pressV = p / (vapour.rho * mixtureR * vapour.T) / vapour.D;
  // Σx and Σy are not 1 until the end; derivatives by x carry 1/Σ.
  let [sumL, sumV] = [0, 0];
  for (let i = 0; i < n; i++) {
    const K = Math.exp(lnK[i]);
    const x = z[i] / (1 - beta + beta * K);
    sumL += x;
    sumV += K * x;
  }
  const balance = n * size;
  matrix.fill(0, 0, (n + 1) * size);
  right[n] = sumL - sumV;
  let worst = 0;
  for (let i = 0; i < n; i++) {
    const value = lnK[i] + lnPhiAt(vapour, i, p, errorV) - lnPhiAt(liquid, i, p, errorL);
    right[i] = -value;
    worst = Math.max(worst, Math.abs(value));
    const row = i * size;
    matrix[row + n + 1] = vapour.fT[i] - liquid.fT[i];
    matrix[row + n + 2] = vapour.Pi[i] * pressV - liquid.Pi[i] * pressL;
    matrix[row + i] = 1;
  }
  work.residual = worst;
  for (let j = 0; j < n; j++) {
    const K = Math.exp(lnK[j]);
    const d = 1 - beta + beta * K;
    const common = (z[j] * K) / (d * d);
    const slope = (z[j] * (K - 1)) / (d * d);
    const [inL, inV] = [(beta * common) / sumL, ((1 - beta) * common) / sumV];
    const [betaL, betaV] = [slope / sumL, (slope * K) / sumV];
    matrix[balance + j] = common;
    matrix[balance + n] -= slope * (K - 1);
    for (let i = 0; i < n; i++) {
      const phiL = liquid.phi[i * n + j];
      const phiV = vapour.phi[i * n + j];
      matrix[i * size + j] += phiV * inV + phiL * inL;
      matrix[i * size + n] += phiL * betaL - phiV * betaV;
    }
  }
}

/** Fills the row of a target. */
function fillTarget(
  mix: Mixture,
  z: ArrayLike<number>,
  target: SplitTarget,
  row: number,
  work: MixtureWork,
): void {
  const { n } = mix;
  const { matrix, right } = work;
  const size = n + 3;
  const start = row * size;
  matrix.fill(0, start, start + size);
  const { value } = target;
  switch (target.quantity) {
    case "T":
      matrix[start + n + 1] = 1;
      right[row] = Math.log(value / work.T);
      return;
    case "p":
      matrix[start + n + 2] = 1;
      right[row] = Math.log(value / work.p);
      return;
    case "beta":
      matrix[start + n] = 1;
      right[row] = value - work.beta;
      return;
    case "lnK": {
      const index = target.index ?? 0;
      matrix[start + index] = 1;
      right[row] = value - work.lnK[index];
      return;
    }
    case "h":
    case "s":
    case "v":
      fillBulk(mix, z, { quantity: target.quantity, value, row }, work);
      return;
  }
}

/** Largest changes of one step; a longer one is shortened as a whole. */
const stepLimits = { lnK: 1.5, beta: 0.5, lnT: 0.08, lnP: 1 };

/** Applies the step in `right`, densities included; returns its largest entry. */
function applyStep(mix: Mixture, z: ArrayLike<number>, work: MixtureWork): number {
  const { n } = mix;
  const { right, lnK, liquid, vapour, p } = work;
  let scale = 1;
  // Of a trace the K-values settle long before β, whose rounding is theirs over (y − x)²/z.
  const settled = work.residual < 1e-12 && Math.abs(right[n]) < 1e-3;
  let largest = Math.max(Math.abs(right[n + 1]), Math.abs(right[n + 2]));
  if (!settled) largest = Math.max(largest, Math.abs(right[n]));
  scale = Math.min(scale, stepLimits.beta / Math.abs(right[n]));
  scale = Math.min(scale, stepLimits.lnT / Math.abs(right[n + 1]));
  scale = Math.min(scale, stepLimits.lnP / Math.abs(right[n + 2]));
  for (let i = 0; i < n; i++) {
    largest = Math.max(largest, Math.abs(right[i]));
    scale = Math.min(scale, stepLimits.lnK / Math.abs(right[i]));
  }
  largest = Math.max(largest, carryDensity(n, z, liquid, work, scale));
  largest = Math.max(largest, carryDensity(n, z, vapour, work, scale));
  for (let i = 0; i < n; i++) lnK[i] += scale * right[i];
  work.beta = keepSplit(n, lnK, work.beta + scale * right[n]);
  work.T *= Math.exp(scale * right[n + 1]);
  work.p = p * Math.exp(scale * right[n + 2]);
  return largest;
}

/** Moves a density along with the step; returns the relative change. */
function carryDensity(
  n: number,
  z: ArrayLike<number>,
  phase: PhaseWork,
  work: MixtureWork,
  scale: number,
): number {
  const { right, lnK, beta, p, vapour } = work;
  const { D, slopeT, Pi } = phase;
  const inVapour = phase === vapour;
  let sum = 0;
  let change = 0;
  for (let j = 0; j < n; j++) {
    const K = Math.exp(lnK[j]);
    const d = 1 - beta + beta * K;
    const common = (z[j] * K) / (d * d);
    const slope = (z[j] * (K - 1)) / (d * d);
    sum += inVapour ? (z[j] * K) / d : z[j] / d;
    const dx = inVapour
      ? (1 - beta) * common * right[j] - slope * K * right[n]
      : -beta * common * right[j] - slope * right[n];
    change += (1 - Pi[j] / D) * dx;
  }
  const squeeze = p / (phase.rho * mixtureR * phase.T) / D;
  const total = change / sum - (slopeT / D) * right[n + 1] + squeeze * right[n + 2];
  const step = densityError(phase, p) + scale * total;
  // A density that would move far is solved for in the next iteration.
  phase.rho = Math.abs(step) < 0.3 ? phase.rho * (1 + step) : 0;
  return Math.abs(step);
}

/** Holds β where every phase amount 1 − β + βK stays positive. */
function keepSplit(n: number, lnK: Float64Array, beta: number): number {
  let [low, high] = [-Infinity, Infinity];
  for (let i = 0; i < n; i++) {
    const K = Math.exp(lnK[i]);
    if (K > 1) low = Math.max(low, 1 / (1 - K));
    if (K < 1) high = Math.min(high, 1 / (1 - K));
  }
  return Math.min(0.999 * high, Math.max(0.999 * low, beta));
}

function isTrivial(n: number, { lnK, liquid, vapour }: MixtureWork): boolean {
  for (let i = 0; i < n; i++) if (Math.abs(lnK[i]) > trivialLnK) return false;
  return Math.abs(liquid.rho / vapour.rho - 1) < 1e-4;
}
