import type { EvenAxis } from "./pack.ts";

/** Four-point Lagrange weights at equal steps: where they begin, and the weights. Owned by the caller. */
export interface Weights {
  i: number;
  w0: number;
  w1: number;
  w2: number;
  w3: number;
}

export const createWeights = (): Weights => ({ i: 0, w0: 0, w1: 0, w2: 0, w3: 0 });

/** Weights for a place on an axis; beyond its ends the outer cubic is continued. */
export function place({ from, step, count }: EvenAxis, value: number, weights: Weights): void {
  const t = (value - from) / step;
  let i = Math.floor(t) - 1;
  if (i < 0) i = 0;
  if (i > count - 4) i = count - 4;
  lagrange(t - i, weights);
  weights.i = i;
}

/** Weights of the nodes 0, 1, 2, 3 at u. */
function lagrange(u: number, weights: Weights): void {
  const a = u - 1;
  const b = u - 2;
  const c = u - 3;
  weights.w0 = (-a * b * c) / 6;
  weights.w1 = (u * b * c) / 2;
  weights.w2 = (-u * a * c) / 2;
  weights.w3 = (u * a * b) / 6;
}

/** Value of a column at a placed argument. */
export function along(column: Float64Array, { i, w0, w1, w2, w3 }: Weights): number {
  return w0 * column[i] + w1 * column[i + 1] + w2 * column[i + 2] + w3 * column[i + 3];
}

/** Value of a table of rows at a place among the rows and one in them. */
export function across(
  table: Float64Array,
  columns: number,
  row: Weights,
  { i, w0, w1, w2, w3 }: Weights,
): number {
  let k = row.i * columns + i;
  let sum = row.w0 * (w0 * table[k] + w1 * table[k + 1] + w2 * table[k + 2] + w3 * table[k + 3]);
  k += columns;
  sum += row.w1 * (w0 * table[k] + w1 * table[k + 1] + w2 * table[k + 2] + w3 * table[k + 3]);
  k += columns;
  sum += row.w2 * (w0 * table[k] + w1 * table[k + 1] + w2 * table[k + 2] + w3 * table[k + 3]);
  k += columns;
  return sum + row.w3 * (w0 * table[k] + w1 * table[k + 1] + w2 * table[k + 2] + w3 * table[k + 3]);
}
