import type { Mixture, PairEstimate } from "./mixture.ts";
import type { MixtureWork, PhaseWork } from "./mixture-work.ts";
import { evaluateCaloric, evaluateIdealParts } from "./phase-caloric.ts";
import { lnPhiOf } from "./k-values.ts";
import { evaluatePhase, placePhase } from "./phase-kernel.ts";
import { splitFeed } from "./split-newton.ts";

/** A homogeneous phase. mol/m³, J/mol, J/(mol K), m/s, kg/mol. */
export interface MixPhase {
  readonly kind: "liquid" | "vapour";
  /** Mole fractions in the order of the mixture's fluids. */
  readonly x: readonly number[];
  readonly rho: number;
  readonly h: number;
  readonly s: number;
  readonly cv: number;
  readonly cp: number;
  readonly w: number;
  readonly M: number;
  /** ln of the fugacity coefficients. */
  readonly lnPhi: readonly number[];
}

/**
 * A state of equilibrium of a mixture. K, Pa, mol/m³, J/mol, J/(mol K).
 *
 * One phase is called liquid where it is denser than the mixture's reducing density 1/v_r(x), else
 * vapour: beyond the critical point the names mean no more than that.
 */
export interface MixState {
  readonly kind: "state";
  readonly T: number;
  readonly p: number;
  readonly z: readonly number[];
  readonly rho: number;
  readonly h: number;
  readonly s: number;
  readonly u: number;
  readonly M: number;
  readonly phase: "liquid" | "vapour" | "two-phase";
  /** Molar vapour fraction: 0 of a liquid, 1 of a vapour. */
  readonly beta: number;
  /** One phase, or liquid and vapour; at a bubble or dew point both. */
  readonly phases: readonly MixPhase[];
  /** Largest |ln f_i(liquid) − ln f_i(vapour)|; 0 with one phase. */
  readonly fugacityResidual: number;
  /** Pairs whose parameters are estimates; empty where all are published fits. */
  readonly estimates: readonly PairEstimate[];
}

export type MixQuantity = "T" | "p" | "beta" | "h" | "s" | "rho";

/** Why there is no state. */
export type MixFailure =
  | {
      readonly kind: "failed";
      /** Outside the limits of the equations. */
      readonly reason: "out-of-range";
      readonly quantity: MixQuantity;
      readonly value: number;
      readonly from: number;
      readonly to: number;
    }
  | {
      readonly kind: "failed";
      /**
       * Bubble, dew or two-phase states of this composition exist only from `from` to `to` (null:
       * nowhere) as far as the envelope could be followed: beyond lies a supercritical fluid, or an
       * envelope that does not close below the highest pressure of the equations.
       */
      readonly reason: "no-solution";
      readonly quantity: MixQuantity;
      readonly value: number;
      readonly from: number | null;
      readonly to: number | null;
    }
  | {
      readonly kind: "failed";
      /** The equations may have a state here, but it was not found. */
      readonly reason: "not-converged";
      readonly quantity: MixQuantity;
      readonly value: number;
      readonly iterations: number;
      readonly residual: number;
    };

export type MixOutcome = MixState | MixFailure;

/** The state of one phase at its density in `phase`, placed at T and x already. */
export function onePhaseState(mix: Mixture, phase: PhaseWork, p: number): MixState {
  evaluateIdealParts(mix, phase, phase.T);
  evaluateCaloric(mix, phase);
  const kind = phase.rho * phase.vr.value > 1 ? "liquid" : "vapour";
  const view = phaseView(mix, phase, p, kind);
  const { rho, h, s, M, x } = view;
  return {
    kind: "state",
    T: phase.T,
    p,
    z: x,
    rho,
    h,
    s,
    u: h - p / rho,
    M,
    phase: kind,
    beta: kind === "liquid" ? 0 : 1,
    phases: [view],
    fugacityResidual: 0,
    estimates: mix.estimates,
  };
}

/** The state of the split that a solver left in `work`. */
export function twoPhaseState(mix: Mixture, z: ArrayLike<number>, work: MixtureWork): MixState {
  const { liquid, vapour, T, p, beta } = work;
  splitFeed(mix.n, z, work);
  evaluateSplitPhase(mix, liquid, T);
  vapour.ideal.set(liquid.ideal);
  placePhase(mix, vapour, T, vapour.x);
  evaluatePhase(mix, vapour, vapour.rho);
  evaluateCaloric(mix, vapour);
  const views = [phaseView(mix, liquid, p, "liquid"), phaseView(mix, vapour, p, "vapour")];
  const [l, v] = views;
  const h = (1 - beta) * l.h + beta * v.h;
  const rho = 1 / ((1 - beta) / l.rho + beta / v.rho);
  let worst = 0;
  for (let i = 0; i < mix.n; i++) {
    if (z[i] > 0) worst = Math.max(worst, Math.abs(work.lnK[i] + v.lnPhi[i] - l.lnPhi[i]));
  }
  return {
    kind: "state",
    T,
    p,
    z: fractions(mix.n, z),
    rho,
    h,
    s: (1 - beta) * l.s + beta * v.s,
    u: h - p / rho,
    M: (1 - beta) * l.M + beta * v.M,
    phase: "two-phase",
    beta,
    phases: views,
    fugacityResidual: worst,
    estimates: mix.estimates,
  };
}

function evaluateSplitPhase(mix: Mixture, phase: PhaseWork, T: number): void {
  placePhase(mix, phase, T, phase.x);
  evaluatePhase(mix, phase, phase.rho);
  evaluateIdealParts(mix, phase, T);
  evaluateCaloric(mix, phase);
}

function phaseView(mix: Mixture, phase: PhaseWork, p: number, kind: "liquid" | "vapour"): MixPhase {
  const { n } = mix;
  const { rho, h, s, cv, cp, MW2 } = phase;
  const x = fractions(n, phase.x);
  const lnPhi = new Array<number>(n);
  let M = 0;
  for (let i = 0; i < n; i++) {
    M += x[i] * mix.M[i];
    lnPhi[i] = lnPhiOf(phase, i, p);
  }
  return { kind, x, rho, h, s, cv, cp, w: Math.sqrt(Math.max(0, MW2) / M), M, lnPhi };
}

function fractions(n: number, x: ArrayLike<number>): readonly number[] {
  const list = new Array<number>(n);
  for (let i = 0; i < n; i++) list[i] = x[i];
  return list;
}

/** Checks a feed: lengths and sum are the caller's business. */
export function checkFeed({ n, ids }: Mixture, z: ArrayLike<number>): void {
  if (z.length !== n) throw new RangeError(`${z.length} fractions for ${n} fluids`);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    if (!(z[i] >= 0)) throw new RangeError(`fraction of ${ids[i]} is ${z[i]}`);
    sum += z[i];
  }
  if (!(Math.abs(sum - 1) < 1e-9)) throw new RangeError(`mole fractions sum to ${sum}, not 1`);
}

/** A failure if a value lies outside its limits, which a rounding may pass. */
export function outsideLimits(
  quantity: MixQuantity,
  value: number,
  from: number,
  to: number,
): MixFailure | undefined {
  if (!Number.isFinite(value)) throw new RangeError(`${quantity} is not finite: ${value}`);
  const slack = 1e-9 * Math.abs(value);
  if (value >= from - slack && value <= to + slack && !(quantity === "p" && value <= 0)) {
    return undefined;
  }
  return { kind: "failed", reason: "out-of-range", quantity, value, from, to };
}

export function notConverged(
  quantity: MixQuantity,
  value: number,
  { iterations, residual }: MixtureWork,
): MixFailure {
  return { kind: "failed", reason: "not-converged", quantity, value, iterations, residual };
}
