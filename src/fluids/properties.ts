import type { Equation } from "./equation.ts";
import { evaluateIdeal, I0, I1, I2, type IdealModel } from "./ideal.ts";
import type { StateWork } from "./state-work.ts";
import { A00, A01, A02, A10, A11, A20, evaluateAll, setTau } from "./residual-kernel.ts";

/** Places of the results of {@link evaluateProperties} in `work.out`. */
export const P = 0;
export const H = 1;
export const S = 2;
export const U = 3;
export const CV = 4;
export const CP = 5;
/** Square of the speed of sound times the molar mass, J/mol: w = √(out[MW2]/M). */
export const MW2 = 6;
/** (∂p/∂T) at constant ρ, Pa/K. */
export const DP_DT = 7;
/** (∂p/∂ρ) at constant T, Pa m³/mol. */
export const DP_DRHO = 8;

/**
 * All properties of a homogeneous state and the derivatives a solver needs, at one stroke.
 *
 * At ρ = 0 it gives the ideal gas, whose entropy is infinite.
 *
 * @param T     Temperature, K, > 0.
 * @param rho   Molar density, mol/m³, ≥ 0; inside the two-phase dome the result is metastable or unstable.
 * @param work  Results in work.out: p Pa, h J/mol, s J/(mol K), u J/mol, cv and cp J/(mol K), M·w² J/mol.
 *
 * Cost: about one exponential per distinct power of τ; allocates nothing.
 * Source: Span, Multiparameter Equations of State, Springer 2000, table 3.10
 */
export function evaluateProperties(
  fluid: Equation & { readonly ideal: IdealModel },
  T: number,
  rho: number,
  work: StateWork,
): void {
  const tau = fluid.Tr / T;
  setTau(fluid.residual, tau, work.residual);
  evaluateIdeal(fluid.ideal, tau, work.ideal);
  propertiesAtDensity(fluid, T, rho, work);
}

/** {@link evaluateProperties} when the factors of the same temperature are already in `work`. */
export function propertiesAtDensity(
  fluid: Equation,
  T: number,
  rho: number,
  work: StateWork,
): void {
  const { R } = fluid;
  const delta = rho / fluid.rhor;
  evaluateAll(fluid.residual, delta, work.residual);
  const { A } = work.residual;
  const { ideal, out } = work;
  const Z = 1 + A[A01];
  const internal = ideal[I1] + A[A10];
  const cv = -(ideal[I2] + A[A20]);
  const slopeT = Z - A[A11];
  const slopeRho = 1 + 2 * A[A01] + A[A02];
  const ratio = (slopeT * slopeT) / cv;
  out[P] = rho * R * T * Z;
  out[H] = R * T * (internal + Z);
  out[S] = R * (internal - ideal[I0] - Math.log(delta) - A[A00]);
  out[U] = R * T * internal;
  out[CV] = R * cv;
  out[CP] = R * (cv + (slopeT * slopeT) / slopeRho);
  out[MW2] = R * T * (slopeRho + ratio);
  out[DP_DT] = rho * R * slopeT;
  out[DP_DRHO] = R * T * slopeRho;
}
