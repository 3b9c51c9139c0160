/**
 * Cholesky's factor of a symmetric positive definite matrix, in place.
 *
 * @param matrix n × n, row by row; its lower triangle becomes L with L·Lᵀ = matrix, the upper one has no meaning.
 * @returns      Whether the matrix is positive definite; if not, its content has no meaning.
 */
export function choleskyInPlace(n: number, matrix: Float64Array): boolean {
  for (let j = 0; j < n; j++) {
    let pivot = matrix[j * n + j];
    for (let k = 0; k < j; k++) pivot -= matrix[j * n + k] ** 2;
    if (!(pivot > 0) || !Number.isFinite(pivot)) return false;
    const root = Math.sqrt(pivot);
    matrix[j * n + j] = root;
    for (let i = j + 1; i < n; i++) {
      let sum = matrix[i * n + j];
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k] * matrix[j * n + k];
      matrix[i * n + j] = sum / root;
    }
  }
  return true;
}

/** Solves L·x = b for a lower triangle, in place of b. */
export function forwardSolve(n: number, L: Float64Array, b: Float64Array): void {
  for (let i = 0; i < n; i++) {
    let sum = b[i];
    for (let k = 0; k < i; k++) sum -= L[i * n + k] * b[k];
    b[i] = sum / L[i * n + i];
  }
}

/** Solves Lᵀ·x = b for a lower triangle, in place of b. */
export function backwardSolve(n: number, L: Float64Array, b: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i];
    for (let k = i + 1; k < n; k++) sum -= L[k * n + i] * b[k];
    b[i] = sum / L[i * n + i];
  }
}

/**
 * Columns of Cholesky's factor: independent directions, each one standard deviation long, of a covariance.
 *
 * @returns undefined when the matrix is not positive definite.
 */
export function choleskyFactor(n: number, matrix: Float64Array): Float64Array[] | undefined {
  const L = Float64Array.from(matrix);
  if (!choleskyInPlace(n, L)) return undefined;
  return Array.from({ length: n }, (_, j) =>
    Float64Array.from({ length: n }, (_unused, i) => (i < j ? 0 : L[i * n + j])),
  );
}
