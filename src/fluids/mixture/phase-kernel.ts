import {
  A00,
  A01,
  A02,
  A10,
  A11,
  A20,
  evaluateAll,
  evaluateInDelta,
  setTau,
} from "../residual-kernel.ts";
import type { Mixture } from "./mixture.ts";
import type { PhaseWork } from "./mixture-work.ts";
import { evaluateReducing } from "./reducing.ts";

/**
 * Fixes temperature and composition of a phase: reducing functions, weights, factors of τ.
 *
 * @param x  Amounts, ≥ 0, length n; their sum need not be 1. May be `phase.x` itself.
 *
 * Cost: most of an evaluation; allocates nothing.
 */
export function placePhase(mix: Mixture, phase: PhaseWork, T: number, x: ArrayLike<number>): void {
  const { n, models } = mix;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += x[i];
  for (let i = 0; i < n; i++) phase.x[i] = x[i] / sum;
  phase.T = T;
  evaluateReducing(mix.Tr, phase.x, phase.Tr);
  evaluateReducing(mix.vr, phase.x, phase.vr);
  const { weight, parts } = phase;
  for (let k = 0; k < models.length; k++) weight[k] = k < n ? phase.x[k] : 0;
  for (const { i, j, F, model } of mix.departures) weight[model] += F * phase.x[i] * phase.x[j];
  const tau = phase.Tr.value / T;
  for (let k = 0; k < models.length; k++) {
    // At a bubble point at T the liquid's factors stay as they are through all iterations.
    if (parts[k].tau !== tau) setTau(models[k], tau, parts[k]);
  }
}

/** αʳ and its derivatives in density, third order included, in `phase.A`; after {@link placePhase}. */
export function evaluatePhaseInDelta(mix: Mixture, phase: PhaseWork, delta: number): void {
  const { models } = mix;
  const { A, weight, parts } = phase;
  let [a0, a1, a2, a3] = [0, 0, 0, 0];
  for (let k = 0; k < models.length; k++) {
    const share = weight[k];
    if (share === 0) continue;
    evaluateInDelta(models[k], delta, parts[k]);
    const part = parts[k].A;
    a0 += share * part[0];
    a1 += share * part[1];
    a2 += share * part[2];
    a3 += share * part[3];
  }
  A[0] = a0;
  A[1] = a1;
  A[2] = a2;
  A[3] = a3;
}

/**
 * αʳ with all derivatives in τ and δ to second order and the fugacity integrals ψ_i of a phase.
 *
 * @param rho   Molar density, mol/m³.
 *
 * ln φ_i = ψ_i − ln(p/(ρRT)). Results: A, a, a01, a10, t, v, psi, Z, D, slopeT.
 * Source: Kunz and Wagner, J. Chem. Eng. Data 57 (2012) 3032, equations 27 to 31
 */
export function evaluatePhase(mix: Mixture, phase: PhaseWork, rho: number): void {
  const { n, models, departures } = mix;
  const { A, weight, parts, x, t, v, a, a01, a10, psi, Tr, vr } = phase;
  phase.rho = rho;
  const delta = rho * vr.value;
  A.fill(0);
  for (let k = 0; k < models.length; k++) {
    evaluateAll(models[k], delta, parts[k]);
    const part = parts[k].A;
    const share = weight[k];
    for (let m = 0; m < 7; m++) A[m] += share * part[m];
  }
  for (let i = 0; i < n; i++) {
    const part = parts[i].A;
    a[i] = part[A00];
    a01[i] = part[A01];
    a10[i] = part[A10];
    // The reducing functions are homogeneous of degree 2: Σ x_k·∂Y/∂x_k = 2Y.
    t[i] = Tr.first[i] / Tr.value - 2;
    v[i] = vr.first[i] / vr.value - 2;
  }
  for (const { i, j, F, model } of departures) {
    const part = parts[model].A;
    a[i] += x[j] * F * part[A00];
    a[j] += x[i] * F * part[A00];
    a01[i] += x[j] * F * part[A01];
    a01[j] += x[i] * F * part[A01];
    a10[i] += x[j] * F * part[A10];
    a10[j] += x[i] * F * part[A10];
  }
  let mean = 0;
  for (let i = 0; i < n; i++) mean += x[i] * a[i];
  for (let i = 0; i < n; i++) {
    psi[i] = A[A00] + A[A01] * (1 + v[i]) + A[A10] * t[i] + a[i] - mean;
  }
  phase.Z = 1 + A[A01];
  phase.slopeT = 1 + A[A01] - A[A11];
  phase.D = 1 + 2 * A[A01] + A[A02];
}

/**
 * Derivatives of the fugacities in composition and temperature, after {@link evaluatePhase}.
 *
 * Results: Pi, phi, psiTau, fT. With D = (∂p/∂ρ)/(RT) near 0 those at constant p are large.
 * Derivation: docs/models/mixtures.md; checked against differences in phase-kernel.test.ts
 */
export function evaluateFugacityDerivatives(mix: Mixture, phase: PhaseWork): void {
  const { n, departures } = mix;
  const { A, x, t, v, a, a01, a10, b, Pi, phi, psiTau, fT, parts } = phase;
  let [mean, mean01, mean10, meanB] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    mean += x[i] * a[i];
    mean01 += x[i] * a01[i];
    mean10 += x[i] * a10[i];
    b[i] = 0;
  }
  phi.fill(0);
  for (const { i, j, F, model } of departures) {
    const part = F * parts[model].A[A00];
    b[i] += part * x[j];
    b[j] += part * x[i];
    phi[i * n + j] += part;
    phi[j * n + i] += part;
  }
  for (let i = 0; i < n; i++) meanB += x[i] * b[i];
  addReducingBend(n, phase.Tr, A[A10], phi);
  addReducingBend(n, phase.vr, A[A01], phi);
  for (let i = 0; i < n; i++) Pi[i] = 1;
  for (let j = 0; j < n; j++) {
    const dDelta = 1 + v[j];
    const dTau = t[j];
    const d01 = (A[A01] + A[A02]) * dDelta + A[A11] * dTau + a01[j] - mean01;
    const d10 = A[A11] * dDelta + (A[A10] + A[A20]) * dTau + a10[j] - mean10;
    const whole = A[A01] * dDelta + A[A10] * dTau + a[j] - mean;
    const dMean = a[j] - mean + mean01 * dDelta + mean10 * dTau + b[j] - meanB;
    for (let i = 0; i < n; i++) {
      const own = a01[i] * dDelta + a10[i] * dTau - b[i];
      const value = phi[i * n + j] + whole + d01 * (1 + v[i]) + d10 * t[i] + own - dMean;
      phi[i * n + j] = value;
      Pi[i] += x[j] * value;
    }
    psiTau[j] = A[A10] + A[A11] * dDelta + (A[A10] + A[A20]) * dTau + a10[j] - mean10;
  }
  const { D, slopeT } = phase;
  for (let i = 0; i < n; i++) {
    fT[i] = 1 - psiTau[i] - (Pi[i] * slopeT) / D;
    for (let j = 0; j < n; j++) phi[i * n + j] += 1;
  }
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) phi[i * n + j] -= (Pi[i] * Pi[j]) / D;
  }
}

/** Adds factor·n∂(n∂ln Y/∂n_i)/∂n_j = factor·(Y_ij/Y − Y_i·Y_j/Y² + Y_i/Y) of a reducing function. */
function addReducingBend(
  n: number,
  { value, first, second }: PhaseWork["Tr"],
  factor: number,
  phi: Float64Array,
): void {
  for (let i = 0; i < n; i++) {
    const yi = first[i] / value;
    for (let j = 0; j < n; j++) {
      phi[i * n + j] += factor * (second[i * n + j] / value - (yi * first[j]) / value + yi);
    }
  }
}
