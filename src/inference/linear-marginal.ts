/**
 * A linear model with normal errors, where some coefficients are nuisances with normal priors and the others are
 * looked at: the nuisances are integrated out exactly, and a quadratic in the others is left.
 */

/** Prior of a nuisance coefficient. */
export interface NormalPrior {
  readonly mean: number;
  readonly sd: number;
}

/** ln of the likelihood of the looked-at coefficients S: `log` − ½(SᵀhS − 2bᵀS). */
export interface Marginal {
  readonly log: number;
  /** Row by row, n × n for n looked-at coefficients. */
  readonly h: Float64Array;
  readonly b: Float64Array;
  /** Most likely nuisances for given looked-at coefficients. */
  nuisances(looked: ArrayLike<number>): Float64Array;
}

/**
 * Integrates the nuisances out.
 *
 * @param columns One a coefficient, as long as `y`; nuisances first.
 * @param y       Observations.
 * @param weights 1/σ² of each.
 * @param priors  Of the nuisances: as many columns are nuisances.
 * @throws        RangeError if lengths differ: the caller's bug.
 * Source: Schur complement of the normal equations; Bishop 2006, 2.3.3 (from memory).
 */
export function linearMarginal(
  columns: readonly Float64Array[],
  y: Float64Array,
  weights: Float64Array,
  priors: readonly NormalPrior[],
): Marginal {
  const m = columns.length;
  if (priors.length > m || columns.some(({ length }) => length !== y.length)) {
    throw new RangeError(`${m} columns, ${priors.length} priors, ${y.length} observations`);
  }
  const equations = normalEquations(columns, y, weights);
  const { H, b } = equations;
  let log = -0.5 * equations.c;
  for (let i = 0; i < y.length; i++) log += 0.5 * Math.log(weights[i] / (2 * Math.PI));
  priors.forEach(({ mean, sd }, k) => {
    const precision = 1 / sd ** 2;
    H[k * m + k] += precision;
    b[k] += precision * mean;
    log -= Math.log(sd) + 0.5 * precision * mean ** 2;
  });
  const n = priors.length;
  for (let k = 0; k < n; k++) log += eliminate(H, b, m, k);
  return {
    log,
    h: block(H, m, n),
    b: b.slice(n),
    nuisances: (looked) => substituteBack(H, b, { m, n }, looked),
  };
}

/** CᵀWC, CᵀWy and yᵀWy. */
function normalEquations(
  columns: readonly Float64Array[],
  y: Float64Array,
  weights: Float64Array,
): { H: Float64Array; b: Float64Array; c: number } {
  const m = columns.length;
  const H = new Float64Array(m * m);
  const b = new Float64Array(m);
  let c = 0;
  for (let i = 0; i < y.length; i++) c += weights[i] * y[i] ** 2;
  for (let j = 0; j < m; j++) {
    const left = columns[j];
    for (let i = 0; i < y.length; i++) b[j] += weights[i] * left[i] * y[i];
    for (let k = j; k < m; k++) {
      const right = columns[k];
      let sum = 0;
      for (let i = 0; i < y.length; i++) sum += weights[i] * left[i] * right[i];
      H[j * m + k] = sum;
      H[k * m + j] = sum;
    }
  }
  return { H, b, c };
}

/** Takes coefficient k out of the rows below it; what that adds to the logarithm. */
function eliminate(H: Float64Array, b: Float64Array, m: number, k: number): number {
  const pivot = H[k * m + k];
  for (let i = k + 1; i < m; i++) {
    const share = H[i * m + k] / pivot;
    for (let j = k + 1; j < m; j++) H[i * m + j] -= share * H[k * m + j];
    b[i] -= share * b[k];
  }
  return 0.5 * (b[k] ** 2 / pivot - Math.log(pivot));
}

function block(H: Float64Array, m: number, n: number): Float64Array {
  const size = m - n;
  const h = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) h[i * size + j] = H[(n + i) * m + n + j];
  }
  return h;
}

function substituteBack(
  H: Float64Array,
  b: Float64Array,
  { m, n }: { readonly m: number; readonly n: number },
  looked: ArrayLike<number>,
): Float64Array {
  const x = new Float64Array(m);
  for (let k = n; k < m; k++) x[k] = looked[k - n];
  for (let k = n - 1; k >= 0; k--) {
    let rest = b[k];
    for (let j = k + 1; j < m; j++) rest -= H[k * m + j] * x[j];
    x[k] = rest / H[k * m + k];
  }
  return x.slice(0, n);
}
