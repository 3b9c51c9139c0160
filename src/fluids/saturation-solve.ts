import { type Equation, reducedPotential } from "./equation.ts";
import { A01, A02, evaluateInDelta, setTau } from "./residual-kernel.ts";
import type { ResidualWork } from "./residual-model.ts";

/** Coexisting densities of the equation, mol/m³, and their pressure, Pa. */
export interface SolvedSaturation {
  readonly kind: "solved";
  readonly T: number;
  readonly p: number;
  readonly rhoL: number;
  readonly rhoV: number;
  readonly iterations: number;
}

export type SaturationSolution =
  | SolvedSaturation
  | {
      readonly kind: "failed";
      readonly reason: "trivial" | "unstable" | "not-converged";
      readonly T: number;
      readonly rhoL: number;
      readonly rhoV: number;
      readonly iterations: number;
    };

/** Newton needs 4 to 8 steps from a good start; rounding noise may add a few. */
const maxIterations = 40;
/** Steps below this are noise near the critical point and rounding elsewhere. */
const smallest = 2e-15;

/**
 * Solves equal pressure and equal chemical potential of liquid and vapour at a temperature.
 *
 * Newton in both reduced densities. The pressure is taken from the vapour: at low temperature the
 * liquid's is a difference of large numbers.
 *
 * @param guess  Densities to start from, mol/m³; rhoL > rhoV.
 *
 * Source: Akasaka, J. Therm. Sci. Technol. 3 (2008) 442
 */
export function solveSaturation(
  equation: Equation,
  T: number,
  guess: { readonly rhoL: number; readonly rhoV: number },
  work: ResidualWork,
): SaturationSolution {
  const { residual, rhor, R } = equation;
  setTau(residual, equation.Tr / T, work);
  const { A } = work;
  let deltaL = guess.rhoL / rhor;
  let deltaV = guess.rhoV / rhor;
  let last = Infinity;
  let iterations = 0;
  while (++iterations <= maxIterations) {
    evaluateInDelta(residual, deltaL, work);
    const slopeL = 1 + 2 * A[A01] + A[A02];
    const pressureL = deltaL * (1 + A[A01]);
    const potentialL = reducedPotential(deltaL, work);
    evaluateInDelta(residual, deltaV, work);
    const slopeV = 1 + 2 * A[A01] + A[A02];
    const pressureV = deltaV * (1 + A[A01]);
    const potentialV = reducedPotential(deltaV, work);
    if (!(slopeL > 0 && slopeV > 0)) break;
    const dPressure = pressureV - pressureL;
    const dPotential = potentialV - potentialL;
    // Both equations share their slopes: potential′ = pressure′/δ.
    const stepL = (deltaL * (dPressure - deltaV * dPotential)) / (slopeL * (deltaL - deltaV));
    const stepV = (deltaV * (dPressure - deltaL * dPotential)) / (slopeV * (deltaL - deltaV));
    const size = Math.max(Math.abs(stepL / deltaL), Math.abs(stepV / deltaV));
    if (!Number.isFinite(size)) break;
    const damp = size > 0.3 ? 0.3 / size : 1;
    deltaL += damp * stepL;
    deltaV += damp * stepV;
    if (deltaL - deltaV < 1e-9 * deltaL) {
      return { kind: "failed", reason: "trivial", T, ...densities(), iterations };
    }
    // Converged, or so close that steps no longer shrink: then they are rounding.
    if (size < smallest || (size < 1e-6 && size >= last)) {
      evaluateInDelta(residual, deltaV, work);
      const p = deltaV * (1 + A[A01]) * rhor * R * T;
      return { kind: "solved", T, p, ...densities(), iterations };
    }
    last = size;
  }
  const reason = iterations > maxIterations ? "not-converged" : "unstable";
  return { kind: "failed", reason, T, ...densities(), iterations };

  function densities(): { rhoL: number; rhoV: number } {
    return { rhoL: deltaL * rhor, rhoV: deltaV * rhor };
  }
}
