/**
 * Solves a dense linear system in place by Gaussian elimination with partial pivoting.
 *
 * @param n       Number of unknowns.
 * @param matrix  n × n, row by row; overwritten.
 * @param right   Right side, length ≥ n; overwritten with the solution.
 * @returns       Whether the matrix is regular; if not, `right` has no meaning.
 *
 * Cost: n³/3 products; allocates nothing.
 */
export function solveLinear(n: number, matrix: Float64Array, right: Float64Array): boolean {
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) {
      if (Math.abs(matrix[i * n + k]) > Math.abs(matrix[pivot * n + k])) pivot = i;
    }
    const size = matrix[pivot * n + k];
    if (size === 0 || !Number.isFinite(size)) return false;
    if (pivot !== k) swapRows(n, k, pivot, matrix, right);
    for (let i = k + 1; i < n; i++) {
      const factor = matrix[i * n + k] / size;
      if (factor === 0) continue;
      for (let j = k + 1; j < n; j++) matrix[i * n + j] -= factor * matrix[k * n + j];
      right[i] -= factor * right[k];
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = right[k];
    for (let j = k + 1; j < n; j++) sum -= matrix[k * n + j] * right[j];
    right[k] = sum / matrix[k * n + k];
  }
  return true;
}

function swapRows(
  n: number,
  k: number,
  pivot: number,
  matrix: Float64Array,
  right: Float64Array,
): void {
  for (let j = k; j < n; j++) {
    const kept = matrix[k * n + j];
    matrix[k * n + j] = matrix[pivot * n + j];
    matrix[pivot * n + j] = kept;
  }
  const kept = right[k];
  right[k] = right[pivot];
  right[pivot] = kept;
}
