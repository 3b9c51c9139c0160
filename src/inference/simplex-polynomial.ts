import { solveLinear } from "../numerics/index.ts";

/**
 * Cubic polynomials in the fractions of a whole: smooth tables over all compositions of up to six parts. The last
 * fraction is left out, because it follows from the others.
 */

/** Number of terms of a full cubic in `parts − 1` variables. */
export const cubicTerms = (parts: number): number => {
  const n = parts - 1;
  return 1 + n + (n * (n + 1)) / 2 + (n * (n + 1) * (n + 2)) / 6;
};

/**
 * Writes the terms of a cubic at fractions x into `into`: 1, xᵢ, xᵢxⱼ, xᵢxⱼxₖ with i ≤ j ≤ k.
 *
 * @param into Length ≥ {@link cubicTerms}(parts).
 */
export function cubicBasis(x: ArrayLike<number>, parts: number, into: Float64Array): void {
  const n = parts - 1;
  into[0] = 1;
  let at = 1;
  for (let i = 0; i < n; i++) into[at++] = x[i];
  for (let i = 0; i < n; i++) {
    for (let j = i; j < n; j++) {
      const two = x[i] * x[j];
      into[at++] = two;
    }
  }
  for (let i = 0; i < n; i++) {
    for (let j = i; j < n; j++) {
      const two = x[i] * x[j];
      for (let k = j; k < n; k++) into[at++] = two * x[k];
    }
  }
}

/** Σ coefficientₜ·termₜ of one polynomial that begins at `from` in a table of several. */
export function evaluateCubic(
  coefficients: Float64Array,
  from: number,
  basis: Float64Array,
  terms: number,
): number {
  let sum = 0;
  for (let t = 0; t < terms; t++) sum += coefficients[from + t] * basis[t];
  return sum;
}

/** All points with fractions that are multiples of 1/steps, drawn in by `inset` so that no part is ever absent. */
export function simplexLattice(parts: number, steps: number, inset: number): number[][] {
  const points: number[][] = [];
  const walk = (head: readonly number[], left: number): void => {
    if (head.length === parts - 1) {
      points.push([...head, left].map((k) => inset + (k / steps) * (1 - parts * inset)));
      return;
    }
    for (let k = 0; k <= left; k++) walk([...head, k], left - k);
  };
  walk([], steps);
  return points;
}

/** Of the mean square of a term: keeps the normal equations regular where points are few. */
const RIDGE = 1e-11;

/**
 * Least-squares cubics through values at points, all with one set of normal equations.
 *
 * @param points  Fractions, each with sum 1.
 * @param values  One list a quantity, in the order of the points.
 * @returns       Coefficients, quantity after quantity; `undefined` if the points do not fix them.
 */
export function fitCubics(
  points: readonly (readonly number[])[],
  values: readonly (readonly number[])[],
): Float64Array | undefined {
  const parts = points[0]?.length ?? 0;
  const terms = cubicTerms(parts);
  const matrix = new Float64Array(terms * terms);
  const basis = new Float64Array(terms);
  const rights = values.map(() => new Float64Array(terms));
  points.forEach((x, k) => {
    cubicBasis(x, parts, basis);
    for (let i = 0; i < terms; i++) {
      for (let j = 0; j < terms; j++) matrix[i * terms + j] += basis[i] * basis[j];
      for (let q = 0; q < values.length; q++) rights[q][i] += basis[i] * values[q][k];
    }
  });
  for (let i = 0; i < terms; i++) matrix[i * terms + i] += RIDGE * points.length;
  const all = new Float64Array(terms * values.length);
  for (let q = 0; q < values.length; q++) {
    if (!solveLinear(terms, matrix.slice(), rights[q])) return undefined;
    all.set(rights[q], q * terms);
  }
  return all;
}
