/**
 * A reducing function Y(x) = Σ x_i²·Y_i + Σ_(i<j) x_i·x_j·c_ij·(x_i + x_j)/(b_ij·x_i + x_j), compiled:
 * T_r, or 1/ρ_r. It is homogeneous of degree 2 in x, which the kernel uses.
 */
export interface Reducing {
  readonly n: number;
  readonly pure: Float64Array;
  /** Columns of the pairs i < j, row by row: c = 2βγ·(mean), b = β². */
  readonly c: Float64Array;
  readonly b: Float64Array;
}

/** Value and derivatives of a reducing function; owned by the caller. */
export interface ReducingWork {
  value: number;
  /** ∂Y/∂x_i with all x independent, length n. */
  readonly first: Float64Array;
  /** ∂²Y/∂x_i∂x_j, n × n. */
  readonly second: Float64Array;
}

export function createReducingWork(n: number): ReducingWork {
  return { value: 0, first: new Float64Array(n), second: new Float64Array(n * n) };
}

/**
 * Evaluates a reducing function and its derivatives in composition.
 *
 * @param x  Mole fractions, length n, sum 1.
 *
 * Source: Kunz and Wagner, J. Chem. Eng. Data 57 (2012) 3032, equations 16 and 17
 */
export function evaluateReducing(model: Reducing, x: Float64Array, work: ReducingWork): void {
  const { n, pure, c, b } = model;
  const { first, second } = work;
  let value = 0;
  for (let i = 0; i < n; i++) {
    value += x[i] * x[i] * pure[i];
    first[i] = 2 * x[i] * pure[i];
    second[i * n + i] = 2 * pure[i];
  }
  let pair = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++, pair++) {
      const [xi, xj] = [x[i], x[j]];
      const factor = c[pair];
      const beta2 = b[pair];
      const q = beta2 * xi + xj;
      const plain = beta2 === 1 || q === 0;
      const N = xi * xj * (xi + xj);
      const Ni = xj * (2 * xi + xj);
      const Nj = xi * (xi + 2 * xj);
      const u = plain ? 0 : 1 / q;
      value += factor * (plain ? xi * xj : N * u);
      first[i] += factor * (plain ? xj : (Ni - N * beta2 * u) * u);
      first[j] += factor * (plain ? xi : (Nj - N * u) * u);
      const cross = plain
        ? factor
        : factor * u * (2 * (xi + xj) - (Ni + Nj * beta2 - 2 * N * beta2 * u) * u);
      second[i * n + j] = cross;
      second[j * n + i] = cross;
      if (plain) continue;
      second[i * n + i] += factor * u * (2 * xj - 2 * beta2 * u * (Ni - N * beta2 * u));
      second[j * n + j] += factor * u * (2 * xi - 2 * u * (Nj - N * u));
    }
  }
  work.value = value;
}
