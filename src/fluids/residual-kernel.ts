import { addNonAnalytic, addNonAnalyticInDelta } from "./non-analytic.ts";
import type { ResidualModel, ResidualWork } from "./residual-model.ts";

/** Places of the results in `work.A`: `Aij` is τ^i·δ^j·∂^(i+j)αʳ/∂τ^i∂δ^j. */
export const A00 = 0;
export const A01 = 1;
export const A02 = 2;
export const A03 = 3;
export const A10 = 4;
export const A11 = 5;
export const A20 = 6;

/**
 * Fixes the temperature of the evaluations that follow: all factors that depend on τ alone.
 *
 * @param tau   Reduced inverse temperature, > 0.
 * @param work  From `createResidualWork(model)`; its c0, c1, c2 and tau are overwritten.
 *
 * Cost: one exponential per distinct exponent of τ and one or two per gaussian term; allocates nothing.
 */
export function setTau(model: ResidualModel, tau: number, work: ResidualWork): void {
  const { tauExponent, n, t, tauIndex, group, m } = model;
  const { tauPower, c0, c1, c2 } = work;
  const lnTau = Math.log(tau);
  work.tau = tau;
  for (let k = 0; k < tauExponent.length; k++) tauPower[k] = Math.exp(tauExponent[k] * lnTau);
  for (let k = 0; k < model.d.length; k++) {
    c0[k] = 0;
    c1[k] = 0;
    c2[k] = 0;
  }
  for (let k = 0; k < n.length; k++) {
    let value = n[k] * tauPower[tauIndex[k]];
    let slope = t[k];
    let bend = slope * (slope - 1);
    if (m[k] !== 0) {
      const u = Math.exp(m[k] * lnTau);
      value *= Math.exp(-u);
      slope -= m[k] * u;
      bend = slope * (slope - 1) - m[k] * m[k] * u;
    }
    const at = group[k];
    c0[at] += value;
    c1[at] += value * slope;
    c2[at] += value * bend;
  }
  setTauGaussian(model, lnTau, work);
}

function setTauGaussian(model: ResidualModel, lnTau: number, work: ResidualWork): void {
  const { n, t, beta, gamma } = model.gaussian;
  const { tau, c0, c1, c2 } = work;
  const first = model.d.length;
  for (let k = 0; k < n.length; k++) {
    const off = tau - gamma[k];
    const pull = 2 * beta[k] * tau;
    const value = n[k] * Math.exp(t[k] * lnTau - beta[k] * off * off);
    const slope = t[k] - pull * off;
    c0[first + k] = value;
    c1[first + k] = value * slope;
    c2[first + k] = value * (slope * (slope - 1) - pull * (tau + off));
  }
}

/**
 * αʳ and its derivatives in density to third order, at the τ of the last {@link setTau}.
 *
 * @param delta  Reduced density, > 0.
 * @param work   Results in work.A at A00, A01, A02, A03; the others are left as they were.
 *
 * Cost: one exponential per block and per gaussian term; allocates nothing.
 */
export function evaluateInDelta(model: ResidualModel, delta: number, work: ResidualWork): void {
  const { d, l, g, blockStart } = model;
  const { c0, deltaPower, A } = work;
  powersOf(delta, deltaPower);
  let a0 = 0;
  let a1 = 0;
  let a2 = 0;
  let a3 = 0;
  for (let block = 0; block < l.length; block++) {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let k = blockStart[block]; k < blockStart[block + 1]; k++) {
      const power = d[k];
      let part = c0[k] * deltaPower[power];
      s0 += part;
      s1 += part *= power;
      s2 += part *= power;
      s3 += part * power;
    }
    // With q = l·g·δ^l the operator D = δ∂/∂δ acts on δ^d·exp(−g·δ^l) as d − q.
    const order = l[block];
    if (order > 0) {
      const u = g[block] * deltaPower[order];
      const e = Math.exp(-u);
      const q = order * u;
      s3 =
        e *
        (s3 -
          3 * q * s2 +
          3 * q * (q - order) * s1 -
          q * (order * order - 3 * order * q + q * q) * s0);
      s2 = e * (s2 - 2 * q * s1 + q * (q - order) * s0);
      s1 = e * (s1 - q * s0);
      s0 *= e;
    }
    a0 += s0;
    a1 += s1;
    a2 += s2;
    a3 += s3;
  }
  const { n, eta, epsilon, lambda } = model.gaussian;
  const first = d.length;
  for (let k = 0; k < n.length; k++) {
    const off = delta - epsilon[k];
    const pull = 2 * eta[k] * delta;
    const drift = lambda[k] * delta;
    const value =
      c0[first + k] *
      deltaPower[model.gaussian.d[k]] *
      Math.exp(-eta[k] * off * off - lambda[k] * delta);
    const b = model.gaussian.d[k] - pull * off - drift;
    const b1 = -pull * (delta + off) - drift;
    const b2 = -pull * (3 * delta + off) - drift;
    a0 += value;
    a1 += value * b;
    a2 += value * (b1 + b * b);
    a3 += value * (b2 + b * (3 * b1 + b * b));
  }
  A[A00] = a0;
  A[A01] = a1;
  A[A02] = a2 - a1;
  A[A03] = a3 - 3 * a2 + 2 * a1;
  if (model.nonAnalytic.n.length > 0) addNonAnalyticInDelta(model.nonAnalytic, delta, work);
}

/**
 * αʳ and all its derivatives to second order, at the τ of the last {@link setTau}.
 *
 * @param delta  Reduced density, ≥ 0; at 0 all results are 0.
 * @param work   Results in work.A at A00, A01, A02, A10, A11, A20; A03 is set to 0.
 */
export function evaluateAll(model: ResidualModel, delta: number, work: ResidualWork): void {
  const { d, l, g, blockStart } = model;
  const { c0, c1, c2, deltaPower, A } = work;
  powersOf(delta, deltaPower);
  let a00 = 0;
  let a01 = 0;
  let a02 = 0;
  let a10 = 0;
  let a11 = 0;
  let a20 = 0;
  for (let block = 0; block < l.length; block++) {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let t0 = 0;
    let t1 = 0;
    let u0 = 0;
    for (let k = blockStart[block]; k < blockStart[block + 1]; k++) {
      const power = d[k];
      const factor = deltaPower[power];
      const part = c0[k] * factor;
      const slope = c1[k] * factor;
      s0 += part;
      s1 += part * power;
      s2 += part * power * power;
      t0 += slope;
      t1 += slope * power;
      u0 += c2[k] * factor;
    }
    const order = l[block];
    if (order > 0) {
      const u = g[block] * deltaPower[order];
      const e = Math.exp(-u);
      const q = order * u;
      s2 = e * (s2 - 2 * q * s1 + q * (q - order) * s0);
      s1 = e * (s1 - q * s0);
      s0 *= e;
      t1 = e * (t1 - q * t0);
      t0 *= e;
      u0 *= e;
    }
    a00 += s0;
    a01 += s1;
    a02 += s2;
    a10 += t0;
    a11 += t1;
    a20 += u0;
  }
  const { n, eta, epsilon, lambda } = model.gaussian;
  const first = d.length;
  for (let k = 0; k < n.length; k++) {
    const off = delta - epsilon[k];
    const pull = 2 * eta[k] * delta;
    const drift = lambda[k] * delta;
    const factor =
      deltaPower[model.gaussian.d[k]] * Math.exp(-eta[k] * off * off - lambda[k] * delta);
    const b = model.gaussian.d[k] - pull * off - drift;
    const part = c0[first + k] * factor;
    const slope = c1[first + k] * factor;
    a00 += part;
    a01 += part * b;
    a02 += part * (b * b - pull * (delta + off) - drift);
    a10 += slope;
    a11 += slope * b;
    a20 += c2[first + k] * factor;
  }
  A[A00] = a00;
  A[A01] = a01;
  A[A02] = a02 - a01;
  A[A03] = 0;
  A[A10] = a10;
  A[A11] = a11;
  A[A20] = a20;
  if (model.nonAnalytic.n.length > 0) addNonAnalytic(model.nonAnalytic, delta, work);
}

function powersOf(delta: number, deltaPower: Float64Array): void {
  let power = 1;
  deltaPower[0] = 1;
  for (let k = 1; k < deltaPower.length; k++) deltaPower[k] = power *= delta;
}
