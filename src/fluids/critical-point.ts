import { type Equation, reducedPressure } from "./equation.ts";
import type { FluidFile } from "./fluid-file.ts";
import type { ResidualWork } from "./residual-model.ts";

/** The critical point of the equation itself, K, Pa, mol/m³. */
export interface CriticalPoint {
  readonly T: number;
  readonly p: number;
  readonly rho: number;
}

/**
 * Where (∂p/∂ρ)_T and (∂²p/∂ρ²)_T of the equation vanish.
 *
 * Listed critical constants are often rounded or measured, and differ from this point by
 * millikelvins. Equations with non-analytic terms are constrained to their listed point and have no
 * derivatives there: for them the listed point is the answer.
 *
 * @throws  Error if Newton's method leaves the neighbourhood of the listed point: bad data.
 */
export function solveCriticalPoint(
  file: FluidFile,
  equation: Equation,
  work: ResidualWork,
): CriticalPoint {
  const { T, rho } = file.residual.some((term) => term.type === "nonAnalytic")
    ? file.reducing
    : newton(file, equation, work);
  return {
    T,
    rho,
    p: reducedPressure(equation, T, rho, work).value * equation.rhor * equation.R * T,
  };
}

function newton(
  file: FluidFile,
  equation: Equation,
  work: ResidualWork,
): { T: number; rho: number } {
  let { T, rho } = file.critical;
  const at = (temperature: number, density: number): { slope: number; bend: number } =>
    reducedPressure(equation, temperature, density, work);
  for (let iteration = 0; iteration < 50; iteration++) {
    const h = 1e-5;
    const here = at(T, rho);
    const [hot, cold] = [at(T * (1 + h), rho), at(T * (1 - h), rho)];
    const [dense, thin] = [at(T, rho * (1 + h)), at(T, rho * (1 - h))];
    const slopeT = (hot.slope - cold.slope) / (2 * h);
    const bendT = (hot.bend - cold.bend) / (2 * h);
    const slopeRho = (dense.slope - thin.slope) / (2 * h);
    const bendRho = (dense.bend - thin.bend) / (2 * h);
    const determinant = slopeT * bendRho - slopeRho * bendT;
    const stepT = (-here.slope * bendRho + here.bend * slopeRho) / determinant;
    const stepRho = (-here.bend * slopeT + here.slope * bendT) / determinant;
    T *= 1 + clip(stepT, 0.01);
    rho *= 1 + clip(stepRho, 0.05);
    if (Math.abs(stepT) < 1e-14 && Math.abs(stepRho) < 1e-10) break;
  }
  const near =
    Math.abs(T / file.critical.T - 1) < 0.01 && Math.abs(rho / file.critical.rho - 1) < 0.1;
  if (!near) throw new Error(`${file.id}: no critical point near the listed one (${T}, ${rho})`);
  return { T, rho };
}

function clip(value: number, size: number): number {
  return Math.max(-size, Math.min(size, value));
}
