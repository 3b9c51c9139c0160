import { solveLinear } from "../numerics/index.ts";

/** Variance of a straight trend against that of what bends: trends are followed wherever points show one. */
const TREND = 1e4;
/** Keeps points that nearly coincide from being followed exactly. */
const JITTER = 1e-6;

/**
 * Smooth columns of values through scattered points: a straight trend, and what departs from it fades with distance
 * (simple kriging with a linear and a squared-exponential covariance).
 *
 * @param points Where values are known, at least one.
 * @param values Of each point, equally many columns.
 * @param length Distance over which departures from the trend fade.
 * @returns      All columns at a place; exact at the points but for 1e-6 of the covariance.
 *
 * Source: Rasmussen & Williams, Gaussian Processes for Machine Learning (2006), equation 2.25 (from memory)
 */
export function throughPoints(
  points: readonly ArrayLike<number>[],
  values: readonly ArrayLike<number>[],
  length: number,
): (x: ArrayLike<number>) => Float64Array {
  const n = points.length;
  const d = points[0]?.length ?? 0;
  const columns = values[0]?.length ?? 0;
  const centre = meanOf(points, d);
  const level = meanOf(values, columns);
  const covariance = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
    let [dot, apart] = [0, 0];
    for (let j = 0; j < d; j++) {
      dot += (a[j] - centre[j]) * (b[j] - centre[j]);
      apart += (a[j] - b[j]) ** 2;
    }
    return TREND * dot + Math.exp(-apart / (2 * length ** 2));
  };
  const weights = Array.from({ length: columns }, (_, c) => {
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) matrix[i * n + j] = covariance(points[i], points[j]);
      matrix[i * n + i] += JITTER;
    }
    const right = Float64Array.from(values, (row) => row[c] - level[c]);
    return solveLinear(n, matrix, right) ? right : new Float64Array(n);
  });
  return (x) => {
    const near = points.map((point) => covariance(x, point));
    return level.map((mean, c) => near.reduce((sum, k, i) => sum + k * weights[c][i], mean));
  };
}

const meanOf = (rows: readonly ArrayLike<number>[], columns: number): Float64Array =>
  Float64Array.from({ length: columns }, (_, c) =>
    rows.reduce((sum, row) => sum + row[c] / rows.length, 0),
  );
