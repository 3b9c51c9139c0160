import type { FluidFile } from "./fluid-file.ts";
import {
  compileResidual,
  createResidualWork,
  type ResidualModel,
  type ResidualWork,
} from "./residual-model.ts";
import { A00, A01, A02, A03, evaluateInDelta, setTau } from "./residual-kernel.ts";

/** What saturation needs of an equation of state: the residual part and its reducing point. */
export interface Equation {
  /** Gas constant of the fit, J/(mol K). */
  readonly R: number;
  /** Reducing temperature, K, and density, mol/m³. */
  readonly Tr: number;
  readonly rhor: number;
  readonly residual: ResidualModel;
}

/** Compiles the equation of a fluid file. */
export function compileEquation(file: FluidFile): Equation {
  return {
    R: file.gasConstant,
    Tr: file.reducing.T,
    rhor: file.reducing.rho,
    residual: compileResidual(file.residual),
  };
}

/** Scratch for an equation. */
export function createWork(equation: Equation): ResidualWork {
  return createResidualWork(equation.residual);
}

/**
 * Pressure and its first two density derivatives at one state, reduced with ρ_r·R·T:
 * value P = δ(1 + A01), slope ∂P/∂δ, bend ∂²P/∂δ².
 */
export function reducedPressure(
  equation: Equation,
  T: number,
  rho: number,
  work: ResidualWork,
): { readonly value: number; readonly slope: number; readonly bend: number } {
  setTau(equation.residual, equation.Tr / T, work);
  const delta = rho / equation.rhor;
  evaluateInDelta(equation.residual, delta, work);
  const { A } = work;
  return {
    value: delta * (1 + A[A01]),
    slope: 1 + 2 * A[A01] + A[A02],
    bend: (2 * A[A01] + 4 * A[A02] + A[A03]) / delta,
  };
}

/** ln of the fugacity divided by ρ_r·R·T: A00 + A01 + ln δ, after `evaluateInDelta` at δ. */
export function reducedPotential(delta: number, work: ResidualWork): number {
  return work.A[A00] + work.A[A01] + Math.log(delta);
}
