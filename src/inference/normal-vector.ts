const LOG_2PI = Math.log(2 * Math.PI);

/**
 * Log density of a normal vector with mean 0.
 *
 * @param covariance n × n, row by row, lower triangle used; overwritten with its Cholesky factor.
 * @param residual   Overwritten.
 * @returns          −∞ if the covariance is not positive definite.
 */
export function logNormalVector(
  n: number,
  covariance: Float64Array,
  residual: Float64Array,
): number {
  let log = -0.5 * n * LOG_2PI;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = covariance[i * n + j];
      for (let k = 0; k < j; k++) sum -= covariance[i * n + k] * covariance[j * n + k];
      if (i === j) {
        if (!(sum > 0)) return -Infinity;
        covariance[i * n + i] = Math.sqrt(sum);
      } else covariance[i * n + j] = sum / covariance[j * n + j];
    }
    let r = residual[i];
    for (let k = 0; k < i; k++) r -= covariance[i * n + k] * residual[k];
    residual[i] = r / covariance[i * n + i];
    log -= 0.5 * residual[i] ** 2 + Math.log(covariance[i * n + i]);
  }
  return log;
}

/** Log density of a normal number. */
export const logNormal = (x: number, mean: number, sd: number): number =>
  -0.5 * (LOG_2PI + ((x - mean) / sd) ** 2) - Math.log(sd);
