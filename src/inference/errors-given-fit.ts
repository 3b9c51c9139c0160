import { backwardSolve, choleskyInPlace, forwardSolve } from "./cholesky.ts";

/**
 * Data whose errors go together, apart from all other data: covariance = fixed + size·size·likeness, where the
 * sizes may change from one state of the world to the next.
 */
export interface ErrorGroup {
  /** Places among all data. */
  readonly at: readonly number[];
  /** n × n of the group, row by row. */
  readonly fixed: Float64Array;
  readonly likeness: Float64Array;
}

/** How fitted unknowns answer to the data that were fitted. */
export interface FitGain {
  /** Places of the fitted data among all. */
  readonly data: readonly number[];
  /** Unknowns × fitted data, row by row, a unit of each datum. */
  readonly gain: Float64Array;
  readonly unknowns: number;
}

/** What the fit tells of the errors, in one state of the world. */
export interface ErrorsGivenFit {
  /** ln density of the fit's answer, a constant left out. */
  readonly logDensity: number;
  readonly sizes: ArrayLike<number>;
  /** Covariance of each error with the fit's answer: data × unknowns. */
  readonly cross: Float64Array;
  /** Cholesky's factor of the answer's covariance, and the inverse of that covariance times the answer. */
  readonly root: Float64Array;
  readonly solved: Float64Array;
}

/** Variance of noise, in prior variances, by which an answer is blurred: where data are fewer than unknowns it stays regular. */
const BLUR = 1e-6;

const covarianceOf = ({ at, fixed, likeness }: ErrorGroup, sizes: ArrayLike<number>) => {
  const n = at.length;
  return (i: number, j: number): number =>
    fixed[i * n + j] + sizes[at[i]] * sizes[at[j]] * likeness[i * n + j];
};

/** Covariance of every error with the answer of the fit to all errors, data × unknowns. */
function crossCovariance(
  groups: readonly ErrorGroup[],
  sizes: ArrayLike<number>,
  { data, gain, unknowns }: FitGain,
  count: number,
): Float64Array {
  const cross = new Float64Array(count * unknowns);
  const column = new Map(data.map((place, i) => [place, i]));
  for (const group of groups) {
    const covariance = covarianceOf(group, sizes);
    for (let j = 0; j < group.at.length; j++) {
      const datum = column.get(group.at[j]);
      if (datum === undefined) continue;
      for (let i = 0; i < group.at.length; i++) {
        const c = covariance(i, j);
        const row = group.at[i] * unknowns;
        for (let k = 0; k < unknowns; k++) cross[row + k] += c * gain[k * data.length + datum];
      }
    }
  }
  return cross;
}

/** Cholesky's factor of the covariance of the fit's answer to the errors. */
function answerRoot({ data, gain, unknowns }: FitGain, cross: Float64Array): Float64Array {
  const S = new Float64Array(unknowns * unknowns);
  for (let i = 0; i < unknowns; i++) {
    for (let k = 0; k < unknowns; k++) {
      let sum = i === k ? BLUR : 0;
      for (let d = 0; d < data.length; d++) {
        sum += gain[i * data.length + d] * cross[data[d] * unknowns + k];
      }
      S[i * unknowns + k] = sum;
    }
  }
  if (!choleskyInPlace(unknowns, S)) throw new RangeError("a covariance of errors is not positive");
  return S;
}

/** gain · misfit of the fitted data. */
function answerTo({ data, gain, unknowns }: FitGain, misfit: ArrayLike<number>): Float64Array {
  const answer = new Float64Array(unknowns);
  for (let k = 0; k < unknowns; k++) {
    let sum = 0;
    for (let i = 0; i < data.length; i++) sum += gain[k * data.length + i] * misfit[i];
    answer[k] = sum;
  }
  return answer;
}

/**
 * What a fit tells of errors: only its answer counts, gain · misfit, and not each datum, so that data which no
 * unknown can follow do not decide between states of the world.
 *
 * @param sizes   Of every datum, fitted or not.
 * @param misfit  Datum minus model of each fitted datum.
 * @throws        RangeError when a covariance is not positive definite: the caller's bug.
 * Source: conditional normal distributions (textbook)
 */
export function errorsGivenFit(
  groups: readonly ErrorGroup[],
  sizes: ArrayLike<number>,
  fit: FitGain,
  misfit: ArrayLike<number>,
): ErrorsGivenFit {
  const n = fit.unknowns;
  const cross = crossCovariance(groups, sizes, fit, sizes.length);
  const root = answerRoot(fit, cross);
  const solved = answerTo(fit, misfit);
  forwardSolve(n, root, solved);
  let logDensity = 0;
  for (let k = 0; k < n; k++) logDensity -= 0.5 * solved[k] ** 2 + Math.log(root[k * n + k]);
  backwardSolve(n, root, solved);
  return { logDensity, sizes, cross, root, solved };
}

/** Mean and variance of a weighted sum of errors, given the fit. */
export function weightedError(
  groups: readonly ErrorGroup[],
  weights: ReadonlyMap<number, number>,
  { sizes, cross, root, solved }: ErrorsGivenFit,
): { mean: number; variance: number } {
  const n = solved.length;
  const g = new Float64Array(n);
  for (const [place, weight] of weights) {
    for (let k = 0; k < n; k++) g[k] += weight * cross[place * n + k];
  }
  let mean = 0;
  for (let k = 0; k < n; k++) mean += g[k] * solved[k];
  let variance = weightedVariance(groups, weights, sizes);
  forwardSolve(n, root, g);
  for (let k = 0; k < n; k++) variance -= g[k] * g[k];
  return { mean, variance };
}

/** Variance of a weighted sum of errors before any fit. */
export function weightedVariance(
  groups: readonly ErrorGroup[],
  weights: ReadonlyMap<number, number>,
  sizes: ArrayLike<number>,
): number {
  let variance = 0;
  for (const group of groups) {
    const mine = group.at.flatMap((place, i) => {
      const weight = weights.get(place);
      return weight === undefined ? [] : [[i, weight] as const];
    });
    const covariance = covarianceOf(group, sizes);
    for (const [i, a] of mine) for (const [j, b] of mine) variance += a * b * covariance(i, j);
  }
  return variance;
}

/** Normal proposals of the unknowns: what the fit's answer allows if the model is straight there. */
export interface Proposal {
  /**
   * @param misfit  Datum minus model at the fit, of each fitted datum.
   * @param normal  Independent standard normal numbers, one an unknown.
   */
  draw(misfit: ArrayLike<number>, normal: Float64Array): Float64Array;
  /** ln density of the fit's answer whatever the unknowns are, a constant left out. */
  logEvidence(misfit: ArrayLike<number>): number;
}

/**
 * @param u           The fit; unknowns are standard normal before the data.
 * @param covariance  Laplace's of the fit.
 */
export function proposalAround(
  u: Float64Array,
  covariance: Float64Array,
  groups: readonly ErrorGroup[],
  sizes: ArrayLike<number>,
  fit: FitGain,
): Proposal {
  const n = fit.unknowns;
  const root = answerRoot(fit, crossCovariance(groups, sizes, fit, sizes.length));
  // How the answer follows a true change of the unknowns: gain · J = 1 − covariance.
  const follows = Float64Array.from(covariance, (c, at) => (at % (n + 1) === 0 ? 1 : 0) - c);
  const columns = Array.from({ length: n }, (_, k) =>
    Float64Array.from({ length: n }, (_unused, i) => follows[i * n + k]),
  );
  // Columns of L⁻¹·follows, where LLᵀ is the answer's covariance for known unknowns.
  for (const column of columns) forwardSolve(n, root, column);
  const precision = Float64Array.from(
    { length: n * n },
    (_, at) => (at % (n + 1) === 0 ? 1 : 0) + dot(columns[Math.floor(at / n)], columns[at % n]),
  );
  if (!choleskyInPlace(n, precision)) throw new RangeError("a precision is not positive");
  /** The answer in units of its own noise, and L⁻¹ of the pull that it has on the unknowns. */
  const pullOf = (misfit: ArrayLike<number>) => {
    const answer = answerTo(fit, misfit);
    forwardSolve(n, root, answer);
    const pull = Float64Array.from(columns, (column, k) => dot(column, answer) - u[k]);
    forwardSolve(n, precision, pull);
    return { answer, pull };
  };
  return {
    draw(misfit, normal) {
      const { pull } = pullOf(misfit);
      // The mean is L⁻ᵀ·pull, a draw about it L⁻ᵀ·normal.
      const step = pull.map((each, k) => each + normal[k]);
      backwardSolve(n, precision, step);
      return step.map((by, k) => u[k] + by);
    },
    logEvidence(misfit) {
      const { answer, pull } = pullOf(misfit);
      return (dot(pull, pull) - dot(answer, answer)) / 2;
    },
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
