import type { Equation } from "./equation.ts";
import { createResidualWork, type ResidualWork } from "./residual-model.ts";

/** Scratch of state functions. */
export interface StateWork {
  readonly residual: ResidualWork;
  readonly ideal: Float64Array;
  /** Results of `evaluateProperties`. */
  readonly out: Float64Array;
  /** Density found by `solveDensity`, reduced. */
  delta: number;
  /** Temperature found by a flash, K. */
  T: number;
  iterations: number;
}

/** Scratch that fits a fluid; one per thread of work. */
export function createStateWork(equation: Equation): StateWork {
  return {
    residual: createResidualWork(equation.residual),
    ideal: new Float64Array(3),
    out: new Float64Array(9),
    delta: 0,
    T: 0,
    iterations: 0,
  };
}
