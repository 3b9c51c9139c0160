import { createResidualWork, type ResidualModel, type ResidualWork } from "../residual-model.ts";
import { createReducingWork, type ReducingWork } from "./reducing.ts";

/** Scratch and results of one homogeneous phase: T, ρ, x and all that follows from them. */
export interface PhaseWork {
  T: number;
  /** Molar density, mol/m³. */
  rho: number;
  /** Mole fractions, sum 1. */
  readonly x: Float64Array;
  readonly Tr: ReducingWork;
  readonly vr: ReducingWork;
  /** Of every model of the mixture: its weight in αʳ and its evaluation. */
  readonly weight: Float64Array;
  readonly parts: readonly ResidualWork[];
  /** αʳ of the mixture and its derivatives at constant x, placed as `A00` … `A20`. */
  readonly A: Float64Array;
  /** n·∂ln T_r/∂n_i and n·∂ln(1/ρ_r)/∂n_i. */
  readonly t: Float64Array;
  readonly v: Float64Array;
  /** ∂αʳ/∂x_i at constant τ, δ; the same of A01 and of A10. */
  readonly a: Float64Array;
  readonly a01: Float64Array;
  readonly a10: Float64Array;
  /** ∂(n·αʳ)/∂n_i at constant T, V; and τ∂/∂τ of it. */
  readonly psi: Float64Array;
  readonly psiTau: Float64Array;
  /** (∂p/∂ρ_i)/(RT) by component densities. */
  readonly Pi: Float64Array;
  /** n·∂(ln φ_i)/∂n_j at constant T, p; n × n. */
  readonly phi: Float64Array;
  /** T·∂(ln f_i)/∂T at constant p, n. */
  readonly fT: Float64Array;
  /** 1 + A01; 1 + A01 − A11; 1 + 2·A01 + A02. */
  Z: number;
  slopeT: number;
  D: number;
  /** Per component α⁰ − ln δ, τα⁰_τ, τ²α⁰_ττ of its own equation. */
  readonly ideal: Float64Array;
  readonly ideal3: Float64Array;
  /** J/mol, J/(mol K), J/mol; (∂H/∂n_i) and (∂S/∂n_i) at constant T, p. */
  h: number;
  s: number;
  cv: number;
  cp: number;
  MW2: number;
  readonly hBar: Float64Array;
  readonly sBar: Float64Array;
  /** Column of work of the kernel. */
  readonly b: Float64Array;
}

/** Scratch of a mixture; one per thread of work. */
export interface MixtureWork {
  readonly liquid: PhaseWork;
  readonly vapour: PhaseWork;
  /** Feed and trial phases of the stability test. */
  readonly feed: PhaseWork;
  readonly trial: PhaseWork;
  readonly lnK: Float64Array;
  /** ln f_i of the feed minus ln p; ln Y of the trial. */
  readonly d: Float64Array;
  readonly lnY: Float64Array;
  /** The last accepted ln Y, and the derivatives of the tangent-plane distance there; else ln K put by. */
  readonly kept: Float64Array;
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
  /** Linear systems of n + 3 unknowns: matrix row by row, right side. */
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  /** Unknowns of the split. */
  T: number;
  p: number;
  beta: number;
  iterations: number;
  residual: number;
}

/** Scratch that fits a mixture. */
export function createMixtureWork(mixture: {
  readonly n: number;
  readonly models: readonly ResidualModel[];
}): MixtureWork {
  const { n } = mixture;
  const phase = (): PhaseWork => createPhaseWork(mixture);
  return {
    liquid: phase(),
    vapour: phase(),
    feed: phase(),
    trial: phase(),
    lnK: new Float64Array(n),
    d: new Float64Array(n),
    lnY: new Float64Array(n),
    kept: new Float64Array(n),
    gradient: new Float64Array(n),
    hessian: new Float64Array(n * n),
    matrix: new Float64Array((n + 3) * (n + 3)),
    right: new Float64Array(n + 3),
    T: 0,
    p: 0,
    beta: 0,
    iterations: 0,
    residual: 0,
  };
}

/** Scratch of one phase. */
export function createPhaseWork(mixture: {
  readonly n: number;
  readonly models: readonly ResidualModel[];
}): PhaseWork {
  const { n, models } = mixture;
  const column = (): Float64Array => new Float64Array(n);
  return {
    T: 0,
    rho: 0,
    x: column(),
    Tr: createReducingWork(n),
    vr: createReducingWork(n),
    weight: new Float64Array(models.length),
    parts: models.map(createResidualWork),
    A: new Float64Array(7),
    t: column(),
    v: column(),
    a: column(),
    a01: column(),
    a10: column(),
    psi: column(),
    psiTau: column(),
    Pi: column(),
    phi: new Float64Array(n * n),
    fT: column(),
    Z: 0,
    slopeT: 0,
    D: 0,
    ideal: new Float64Array(3 * n),
    ideal3: new Float64Array(3),
    h: 0,
    s: 0,
    cv: 0,
    cp: 0,
    MW2: 0,
    hBar: column(),
    sBar: column(),
    b: column(),
  };
}
