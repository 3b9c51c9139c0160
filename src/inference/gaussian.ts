import { choleskyInPlace, forwardSolve } from "./cholesky.ts";

/** A multivariate normal distribution; the covariance is n × n, row by row. */
export interface Gaussian {
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
}

/**
 * Mean and covariance of a function of independent standard normal inputs, from its values one standard deviation
 * up and down each input.
 *
 * The half difference of a pair is its slope, half its second difference its bend: slopes add in quadrature, bends
 * move the mean and add their square. For a straight line this is exact; for a parabola the mean is exact; for a
 * kink |x| the mean is 1 instead of 0.80 and the variance 1 instead of 0.36: wide rather than narrow.
 *
 * @param centre Value with all inputs at their means.
 * @param pairs  For each input the values up and down; a side without a value leaves the other side's slope.
 */
export function secantMoments(centre: ArrayLike<number>, pairs: readonly Pair[]): Gaussian {
  const n = centre.length;
  const mean = Float64Array.from(centre);
  const covariance = new Float64Array(n * n);
  for (const { slope, bend } of secantsOf(centre, pairs)) {
    for (let i = 0; i < n; i++) {
      mean[i] += bend[i];
      for (let j = 0; j < n; j++) {
        covariance[i * n + j] += slope[i] * slope[j] + bend[i] * bend[j];
      }
    }
  }
  return { mean, covariance };
}

/** Values of a function up and down one of its inputs; undefined where it has none. */
export interface Pair {
  readonly up: ArrayLike<number> | undefined;
  readonly down: ArrayLike<number> | undefined;
}

/** Slope and bend along each input, for a step of one. */
export function secantsOf(
  centre: ArrayLike<number>,
  pairs: readonly Pair[],
): readonly { readonly slope: Float64Array; readonly bend: Float64Array }[] {
  const n = centre.length;
  return pairs.map(({ up, down }) => {
    const [slope, bend] = [new Float64Array(n), new Float64Array(n)];
    for (let i = 0; i < n && (up ?? down); i++) {
      const above = up ? up[i] - centre[i] : centre[i] - (down?.[i] ?? 0);
      const below = down ? centre[i] - down[i] : above;
      slope[i] = (above + below) / 2;
      bend[i] = (above - below) / 2;
    }
    return { slope, bend };
  });
}

/** A share of the way from one distribution to another: means and covariances are mixed in proportion. */
export function betweenGaussians(a: Gaussian, b: Gaussian, share: number): Gaussian {
  const mix = (x: Float64Array, y: Float64Array): Float64Array =>
    x.map((value, i) => value + share * (y[i] - value));
  return { mean: mix(a.mean, b.mean), covariance: mix(a.covariance, b.covariance) };
}

/** The distribution of some of the components, in the order asked for. */
export function partOf({ mean, covariance }: Gaussian, picks: readonly number[]): Gaussian {
  const k = picks.length;
  const part = new Float64Array(k * k);
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < k; j++) part[i * k + j] = covariance[picks[i] * mean.length + picks[j]];
  }
  return { mean: Float64Array.from(picks, (i) => mean[i]), covariance: part };
}

/** Mahalanobis distance squared and ln of the determinant; undefined when the covariance is not positive definite. */
function residualOf({ mean, covariance }: Gaussian, y: ArrayLike<number>) {
  const n = mean.length;
  const L = Float64Array.from(covariance);
  if (!choleskyInPlace(n, L)) return undefined;
  const r = Float64Array.from(mean, (m, i) => y[i] - m);
  forwardSolve(n, L, r);
  let [squared, lnDet] = [0, 0];
  for (let i = 0; i < n; i++) {
    squared += r[i] * r[i];
    lnDet += 2 * Math.log(L[i * n + i]);
  }
  return { squared, lnDet };
}

/** ln of the density at y; −∞ when the covariance is not positive definite. */
export function logDensity(gaussian: Gaussian, y: ArrayLike<number>): number {
  const found = residualOf(gaussian, y);
  if (!found) return -Infinity;
  const n = gaussian.mean.length;
  return -0.5 * (found.squared + found.lnDet + n * Math.log(2 * Math.PI));
}

/** Squared distance of y from the mean in standard deviations; infinite when the covariance is not positive definite. */
export const squaredDistance = (gaussian: Gaussian, y: ArrayLike<number>): number =>
  residualOf(gaussian, y)?.squared ?? Infinity;

/**
 * All components after some of them were read with noise: the usual conditional normal (Kalman's update).
 *
 * @param picks Components that were read.
 * @param y     What was read.
 * @param noise Covariance of the reading's noise, k × k.
 * @returns     The distribution unchanged when the covariance of the readings is not positive definite.
 */
export function conditionedOn(
  prior: Gaussian,
  picks: readonly number[],
  y: ArrayLike<number>,
  noise: Float64Array,
): Gaussian {
  const n = prior.mean.length;
  const k = picks.length;
  const { mean: expected, covariance: L } = partOf(prior, picks);
  for (let i = 0; i < k * k; i++) L[i] += noise[i];
  if (!choleskyInPlace(k, L)) return prior;
  const r = Float64Array.from(expected, (m, i) => y[i] - m);
  forwardSolve(k, L, r);
  const gains = Array.from({ length: n }, (_, i) => {
    const row = Float64Array.from(picks, (j) => prior.covariance[i * n + j]);
    forwardSolve(k, L, row);
    return row;
  });
  const mean = Float64Array.from(prior.mean, (m, i) => m + dot(gains[i], r));
  const covariance = Float64Array.from(prior.covariance, (value, at) => {
    const i = Math.floor(at / n);
    return value - dot(gains[i], gains[at - i * n]);
  });
  return { mean, covariance };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
