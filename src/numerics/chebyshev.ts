/**
 * Nodes of the Chebyshev expansion of a degree on [from, to]: the extrema of the highest
 * polynomial, both ends included.
 *
 * @param degree  Degree of the expansion, ≥ 1.
 * @returns       degree + 1 nodes in descending order: the first is `to`.
 */
export function chebyshevNodes(degree: number, from: number, to: number): Float64Array {
  const nodes = new Float64Array(degree + 1);
  for (let k = 0; k <= degree; k++) {
    const x = Math.cos((Math.PI * k) / degree);
    nodes[k] = 0.5 * (from + to) + 0.5 * (to - from) * x;
  }
  nodes[0] = to;
  nodes[degree] = from;
  return nodes;
}

/**
 * Coefficients of the expansion that passes through values at the nodes of {@link chebyshevNodes}.
 *
 * The discrete cosine transform is written out: degrees here stay below twenty.
 *
 * @param values  Function values at the nodes, in their order, length degree + 1.
 * @returns       Coefficients c, length degree + 1; f(x) = Σ c_k T_k(x), c_0 counted whole.
 * @throws        RangeError for fewer than two values: the caller's bug.
 *
 * Source: Trefethen, Approximation Theory and Approximation Practice, SIAM 2013, chapters 2 to 4
 */
export function chebyshevFit(values: Float64Array): Float64Array {
  const degree = values.length - 1;
  if (degree < 1) throw new RangeError(`an expansion needs two values, got ${values.length}`);
  const coefficients = new Float64Array(degree + 1);
  for (let j = 0; j <= degree; j++) {
    let sum = 0;
    for (let k = 0; k <= degree; k++) {
      const weight = k === 0 || k === degree ? 0.5 : 1;
      // The angle is reduced with integers first: cos of a large argument would lose digits.
      sum += weight * values[k] * Math.cos((Math.PI * ((j * k) % (2 * degree))) / degree);
    }
    coefficients[j] = (sum * (j === 0 || j === degree ? 1 : 2)) / degree;
  }
  return coefficients;
}

/**
 * Value of one expansion out of a table of expansions of equal degree, by Clenshaw's recurrence.
 *
 * @param table  Coefficients, one expansion after another.
 * @param start  Index of c_0 of the expansion wanted.
 * @param count  Number of its coefficients, ≥ 2.
 * @param x      Argument scaled to [-1, 1].
 *
 * Cost: count − 1 steps, allocates nothing.
 * Source: Clenshaw, Math. Tables Aids Comput. 9 (1955) 118
 */
export function clenshaw(table: Float64Array, start: number, count: number, x: number): number {
  const twice = 2 * x;
  let b1 = 0;
  let b2 = 0;
  for (let k = start + count - 1; k > start; k--) {
    const b0 = table[k] + twice * b1 - b2;
    b2 = b1;
    b1 = b0;
  }
  return table[start] + x * b1 - b2;
}
