/** One kind of term of the ideal-gas Helmholtz energy; ln δ is not part of it (see `idealAll`). */
export type IdealTerm =
  | { readonly type: "lead"; readonly a1: number; readonly a2: number }
  | { readonly type: "logTau"; readonly a: number }
  | { readonly type: "power"; readonly n: readonly number[]; readonly t: readonly number[] }
  | {
      readonly type: "planckEinstein";
      readonly n: readonly number[];
      readonly theta: readonly number[];
    };

/** Ideal-gas part compiled to columns: a1 + a2·τ + logTau·ln τ + Σ n·τ^t + Σ n·ln(1 − exp(−θτ)). */
export interface IdealModel {
  readonly a1: number;
  readonly a2: number;
  readonly logTau: number;
  readonly powerN: Float64Array;
  readonly powerT: Float64Array;
  readonly einsteinN: Float64Array;
  readonly einsteinTheta: Float64Array;
}

/** Places of the results of {@link evaluateIdeal}: α⁰ without ln δ, τ·α⁰_τ, τ²·α⁰_ττ. */
export const I0 = 0;
export const I1 = 1;
export const I2 = 2;

/**
 * Compiles ideal-gas terms.
 *
 * @param offset  a1 + a2·τ is added: it only moves the zero of entropy and enthalpy.
 */
export function compileIdeal(
  terms: readonly IdealTerm[],
  offset: { readonly a1: number; readonly a2: number },
): IdealModel {
  let { a1, a2 } = offset;
  let logTau = 0;
  for (const term of terms) {
    if (term.type === "lead") {
      a1 += term.a1;
      a2 += term.a2;
    } else if (term.type === "logTau") logTau += term.a;
  }
  const power = terms.filter((term) => term.type === "power");
  const einstein = terms.filter((term) => term.type === "planckEinstein");
  return {
    a1,
    a2,
    logTau,
    powerN: Float64Array.from(power.flatMap((term) => term.n)),
    powerT: Float64Array.from(power.flatMap((term) => term.t)),
    einsteinN: Float64Array.from(einstein.flatMap((term) => term.n)),
    einsteinTheta: Float64Array.from(einstein.flatMap((term) => term.theta)),
  };
}

/**
 * Ideal-gas Helmholtz energy without ln δ, and its τ-derivatives.
 *
 * @param out  Length 3: α⁰ − ln δ, τ·α⁰_τ, τ²·α⁰_ττ.
 *
 * Cost: two transcendental functions per term; allocates nothing.
 */
export function evaluateIdeal(model: IdealModel, tau: number, out: Float64Array): void {
  const { powerN, powerT, einsteinN, einsteinTheta } = model;
  const lnTau = Math.log(tau);
  let value = model.a1 + model.a2 * tau + model.logTau * lnTau;
  let slope = model.a2 * tau + model.logTau;
  let bend = -model.logTau;
  for (let k = 0; k < powerN.length; k++) {
    const part = powerN[k] * Math.exp(powerT[k] * lnTau);
    value += part;
    slope += part * powerT[k];
    bend += part * powerT[k] * (powerT[k] - 1);
  }
  for (let k = 0; k < einsteinN.length; k++) {
    const u = einsteinTheta[k] * tau;
    const e = Math.exp(-u);
    const rest = 1 - e;
    const share = (einsteinN[k] * u * e) / rest;
    value += einsteinN[k] * Math.log(rest);
    slope += share;
    bend -= (share * u) / rest;
  }
  out[I0] = value;
  out[I1] = slope;
  out[I2] = bend;
}
