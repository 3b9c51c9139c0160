import { solveLinear } from "../numerics/index.ts";

/**
 * A least-squares problem in unknowns that are standard normal before the data: each is counted in its own
 * prior standard deviations from its own prior mean.
 */
export interface LeastSquaresProblem {
  readonly unknowns: number;
  readonly residuals: number;
  /**
   * Writes (model − datum)/σ of each datum.
   *
   * @returns Whether the model has an answer there.
   */
  evaluate(u: Float64Array, residuals: Float64Array): boolean;
}

/** Room for one problem size; owned by the caller. */
export interface LeastSquaresWork {
  readonly unknowns: number;
  readonly residuals: number;
  readonly jacobian: Float64Array;
  readonly normal: Float64Array;
  readonly damped: Float64Array;
  readonly step: Float64Array;
  readonly tried: Float64Array;
  readonly r: Float64Array;
  readonly moved: Float64Array;
}

export function createLeastSquaresWork(unknowns: number, residuals: number): LeastSquaresWork {
  return {
    unknowns,
    residuals,
    jacobian: new Float64Array(residuals * unknowns),
    normal: new Float64Array(unknowns * unknowns),
    damped: new Float64Array(unknowns * unknowns),
    step: new Float64Array(unknowns),
    tried: new Float64Array(unknowns),
    r: new Float64Array(residuals),
    moved: new Float64Array(residuals),
  };
}

export type LeastSquaresFit =
  | {
      readonly kind: "fitted";
      /** Most probable unknowns, in prior standard deviations. */
      readonly u: Float64Array;
      /** Laplace covariance (JᵀJ + 1)⁻¹, row by row. */
      readonly covariance: Float64Array;
      /** J at the end, residuals × unknowns, row by row. */
      readonly jacobian: Float64Array;
      readonly residuals: Float64Array;
      /** Sum of squares of the data's residuals and of the unknowns. */
      readonly chiSquare: number;
      readonly priorSquare: number;
      readonly iterations: number;
      /** False when the last step was still longer than the tolerance. */
      readonly settled: boolean;
    }
  | { readonly kind: "failed"; readonly at: "start" | "covariance" };

/** Steps of the differences, in prior standard deviations: wide enough to look across a small kink. */
const DIFFERENCE = 0.02;
const MOST_ITERATIONS = 25;
const TOLERANCE = 2e-3;
const MOST_DAMPING = 1e8;

/**
 * Most probable unknowns of a problem with a Gaussian prior, by damped Gauss–Newton steps.
 *
 * The Jacobian is taken anew at each step, because a model with regimes has kinks.
 *
 * @param work From {@link createLeastSquaresWork} with the problem's sizes; overwritten.
 * @throws RangeError when the workspace has other sizes: the caller's bug.
 * Cost: (unknowns + 1 or 2) evaluations an iteration.
 * Source: Levenberg 1944, Marquardt 1963 (damping); Laplace's approximation: common practice
 */
export function fitLeastSquares(
  problem: LeastSquaresProblem,
  work: LeastSquaresWork,
): LeastSquaresFit {
  const { unknowns: n, residuals: m } = problem;
  if (work.unknowns !== n || work.residuals !== m) {
    throw new RangeError(`workspace of ${work.unknowns} × ${work.residuals} for ${n} × ${m}`);
  }
  const u = new Float64Array(n);
  if (!problem.evaluate(u, work.r)) return { kind: "failed", at: "start" };
  let cost = costOf(u, work.r);
  let damping = 1e-3;
  let iterations = 0;
  let settled = false;
  while (!settled && iterations < MOST_ITERATIONS) {
    iterations++;
    linearise(problem, u, work);
    const moved = improve(problem, u, cost, damping, work);
    if (moved === undefined) break;
    settled = moved.length < TOLERANCE;
    cost = moved.cost;
    damping = moved.damping;
  }
  linearise(problem, u, work);
  const covariance = invert(n, work);
  if (!covariance) return { kind: "failed", at: "covariance" };
  const priorSquare = squares(u);
  return {
    kind: "fitted",
    u,
    covariance,
    jacobian: work.jacobian.slice(),
    residuals: work.r.slice(),
    chiSquare: squares(work.r),
    priorSquare,
    iterations,
    settled,
  };
}

function squares(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] * values[i];
  return sum;
}

const costOf = (u: Float64Array, r: Float64Array): number => squares(u) + squares(r);

/** Jacobian by forward differences, backward where the model has no answer ahead; then JᵀJ + 1 into `normal`. */
function linearise(problem: LeastSquaresProblem, u: Float64Array, work: LeastSquaresWork): void {
  const { unknowns: n, residuals: m, jacobian, normal, tried, moved, r } = work;
  for (let j = 0; j < n; j++) {
    tried.set(u);
    tried[j] = u[j] + DIFFERENCE;
    let step = DIFFERENCE;
    if (!problem.evaluate(tried, moved)) {
      step = -DIFFERENCE;
      tried[j] = u[j] + step;
      if (!problem.evaluate(tried, moved)) moved.set(r);
    }
    for (let i = 0; i < m; i++) jacobian[i * n + j] = (moved[i] - r[i]) / step;
  }
  for (let j = 0; j < n; j++) {
    for (let k = 0; k <= j; k++) {
      let sum = j === k ? 1 : 0;
      for (let i = 0; i < m; i++) sum += jacobian[i * n + j] * jacobian[i * n + k];
      normal[j * n + k] = sum;
      normal[k * n + j] = sum;
    }
  }
}

interface Moved {
  readonly cost: number;
  readonly damping: number;
  /** Longest change of an unknown. */
  readonly length: number;
}

/** A step that lowers the cost, put into `u` and `r`; undefined when no damping finds one. */
function improve(
  problem: LeastSquaresProblem,
  u: Float64Array,
  cost: number,
  from: number,
  work: LeastSquaresWork,
): Moved | undefined {
  const { unknowns: n, damped, normal, step, tried, moved, r } = work;
  for (let damping = from; damping < MOST_DAMPING; damping *= 8) {
    damped.set(normal);
    for (let j = 0; j < n; j++) damped[j * n + j] *= 1 + damping;
    downhill(u, work);
    if (!solveLinear(n, damped, step)) continue;
    let length = 0;
    for (let j = 0; j < n; j++) {
      tried[j] = u[j] + step[j];
      length = Math.max(length, Math.abs(step[j]));
    }
    if (!problem.evaluate(tried, moved)) continue;
    const next = costOf(tried, moved);
    if (next > cost) {
      if (length < TOLERANCE) return { cost, damping: from, length };
      continue;
    }
    u.set(tried);
    r.set(moved);
    return { cost: next, damping: Math.max(1e-6, damping / 8), length };
  }
  return undefined;
}

/** −(Jᵀr + u) into `step`. */
function downhill(u: Float64Array, work: LeastSquaresWork): void {
  const { unknowns: n, residuals: m, jacobian, step, r } = work;
  for (let j = 0; j < n; j++) {
    let sum = u[j];
    for (let i = 0; i < m; i++) sum += jacobian[i * n + j] * r[i];
    step[j] = -sum;
  }
}

function invert(n: number, { normal, damped, step }: LeastSquaresWork): Float64Array | undefined {
  const inverse = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    damped.set(normal);
    step.fill(0);
    step[j] = 1;
    if (!solveLinear(n, damped, step)) return undefined;
    for (let i = 0; i < n; i++) inverse[i * n + j] = step[i];
  }
  return inverse;
}
