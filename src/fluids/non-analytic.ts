import type { NonAnalyticColumns, ResidualWork } from "./residual-model.ts";

/** Below this exponent Psi is under 1e-34 of the other terms and the rest is not worked out. */
const negligible = -80;

/**
 * Adds the terms n·Δ^b·δ·Ψ of the critical region to A00, A01, A02, A03.
 *
 * Δ = Θ² + B·|δ−1|^(2a), Θ = (1−τ) + A·|δ−1|^(1/β), Ψ = exp(−C(δ−1)² − D(τ−1)²).
 * At the very critical point Δ is 0 and the derivatives have no limit: the term is left out there.
 *
 * Source: Span and Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509, table 32
 */
export function addNonAnalyticInDelta(
  columns: NonAnalyticColumns,
  delta: number,
  work: ResidualWork,
): void {
  const { n, a, b, beta, A, B, C, D } = columns;
  const result = work.A;
  const s = delta - 1;
  const size = Math.abs(s);
  const side = s < 0 ? -1 : 1;
  const shift = work.tau - 1;
  for (let k = 0; k < n.length; k++) {
    const exponent = -C[k] * s * s - D[k] * shift * shift;
    if (exponent < negligible) continue;
    // |s|^q and its derivatives, from |s|^(q−3) upward so that s = 0 needs no division.
    const q = 1 / beta[k];
    const low = size ** (q - 3);
    const Theta = A[k] * low * size * size * size - shift;
    const Theta1 = A[k] * q * low * size * size * side;
    const Theta2 = A[k] * q * (q - 1) * low * size;
    const Theta3 = A[k] * q * (q - 1) * (q - 2) * low * side;
    const r = 2 * a[k];
    const base = B[k] * size ** (r - 3);
    const Delta = Theta * Theta + base * size * size * size;
    if (Delta === 0) continue;
    const Delta1 = 2 * Theta * Theta1 + r * base * size * size * side;
    const Delta2 = 2 * (Theta1 * Theta1 + Theta * Theta2) + r * (r - 1) * base * size;
    const Delta3 = 6 * Theta1 * Theta2 + 2 * Theta * Theta3 + r * (r - 1) * (r - 2) * base * side;
    const F = Delta ** b[k];
    const f1 = (b[k] * F) / Delta;
    const f2 = ((b[k] - 1) * f1) / Delta;
    const f3 = ((b[k] - 2) * f2) / Delta;
    const F1 = f1 * Delta1;
    const F2 = f2 * Delta1 * Delta1 + f1 * Delta2;
    const F3 = f3 * Delta1 * Delta1 * Delta1 + 3 * f2 * Delta1 * Delta2 + f1 * Delta3;
    const c = 2 * C[k];
    const Psi = n[k] * Math.exp(exponent);
    const Psi1 = -c * s * Psi;
    const Psi2 = (c * s * s - 1) * c * Psi;
    const Psi3 = (3 - c * s * s) * c * c * s * Psi;
    const G = delta * Psi;
    const G1 = Psi + delta * Psi1;
    const G2 = 2 * Psi1 + delta * Psi2;
    const G3 = 3 * Psi2 + delta * Psi3;
    result[0] += F * G;
    result[1] += delta * (F1 * G + F * G1);
    result[2] += delta * delta * (F2 * G + 2 * F1 * G1 + F * G2);
    result[3] += delta * delta * delta * (F3 * G + 3 * F2 * G1 + 3 * F1 * G2 + F * G3);
  }
}

/** The same terms, added to A00, A01, A02, A10, A11, A20. */
export function addNonAnalytic(
  columns: NonAnalyticColumns,
  delta: number,
  work: ResidualWork,
): void {
  const { n, a, b, beta, A, B, C, D } = columns;
  const result = work.A;
  const tau = work.tau;
  const s = delta - 1;
  const size = Math.abs(s);
  const side = s < 0 ? -1 : 1;
  const shift = tau - 1;
  for (let k = 0; k < n.length; k++) {
    const exponent = -C[k] * s * s - D[k] * shift * shift;
    if (exponent < negligible) continue;
    const q = 1 / beta[k];
    const low = size ** (q - 2);
    const Theta = A[k] * low * size * size - shift;
    const Theta1 = A[k] * q * low * size * side;
    const Theta2 = A[k] * q * (q - 1) * low;
    const r = 2 * a[k];
    const base = B[k] * size ** (r - 2);
    const Delta = Theta * Theta + base * size * size;
    if (Delta === 0) continue;
    const Delta1 = 2 * Theta * Theta1 + r * base * size * side;
    const Delta2 = 2 * (Theta1 * Theta1 + Theta * Theta2) + r * (r - 1) * base;
    const F = Delta ** b[k];
    const f1 = (b[k] * F) / Delta;
    const f2 = ((b[k] - 1) * f1) / Delta;
    const F1 = f1 * Delta1;
    const F2 = f2 * Delta1 * Delta1 + f1 * Delta2;
    const Ft = -2 * f1 * Theta;
    const Ftt = 4 * f2 * Theta * Theta + 2 * f1;
    const Ft1 = -2 * f2 * Theta * Delta1 - 2 * f1 * Theta1;
    const c = 2 * C[k];
    const e = 2 * D[k];
    const Psi = n[k] * Math.exp(exponent);
    const G = delta * Psi;
    const G1 = Psi - c * s * G;
    const G2 = -2 * c * s * Psi + (c * s * s - 1) * c * G;
    const Gt = -e * shift * G;
    const Gtt = (e * shift * shift - 1) * e * G;
    const Gt1 = -e * shift * G1;
    result[0] += F * G;
    result[1] += delta * (F1 * G + F * G1);
    result[2] += delta * delta * (F2 * G + 2 * F1 * G1 + F * G2);
    result[4] += tau * (Ft * G + F * Gt);
    result[5] += tau * delta * (Ft1 * G + Ft * G1 + F1 * Gt + F * Gt1);
    result[6] += tau * tau * (Ftt * G + 2 * Ft * Gt + F * Gtt);
  }
}
