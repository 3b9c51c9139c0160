/**
 * Weighted samples of a posterior: weights are kept as logarithms until the end, because a product of
 * many likelihoods leaves the range of a number long before it means nothing.
 */

/** ln Σ exp(xᵢ) without overflow; −∞ for an empty list or for only −∞. */
export function logSumExp(x: ArrayLike<number>): number {
  let largest = -Infinity;
  for (let i = 0; i < x.length; i++) largest = Math.max(largest, x[i]);
  if (largest === -Infinity) return -Infinity;
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += Math.exp(x[i] - largest);
  return largest + Math.log(sum);
}

/**
 * Weights that sum to 1.
 *
 * @param logWeights  Any constant may be added to all of them.
 * @returns           All zero when every one is −∞: no sample explains the data, and the caller must say so.
 */
export function normalisedWeights(logWeights: ArrayLike<number>): Float64Array {
  const total = logSumExp(logWeights);
  const w = new Float64Array(logWeights.length);
  if (total === -Infinity) return w;
  for (let i = 0; i < w.length; i++) w[i] = Math.exp(logWeights[i] - total);
  return w;
}

/** Kish's effective number of samples, 1/Σw² for weights that sum to 1; 0 for weights that are all zero. */
export function effectiveSamples(weights: ArrayLike<number>): number {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < weights.length; i++) {
    sum += weights[i];
    squares += weights[i] ** 2;
  }
  return squares === 0 ? 0 : sum ** 2 / squares;
}

/**
 * Value below which a share of the weight lies, interpolated between samples.
 *
 * @param share  0 to 1.
 * @throws       RangeError when lengths differ, nothing is there or no weight is positive: the caller's bug.
 */
export function weightedQuantile(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  share: number,
): number {
  if (values.length !== weights.length) {
    throw new RangeError(`${values.length} values have ${weights.length} weights`);
  }
  const order = Array.from({ length: values.length }, (_, i) => i)
    .filter((i) => weights[i] > 0)
    .sort((a, b) => values[a] - values[b]);
  if (order.length === 0) throw new RangeError("a quantile needs a sample with weight");
  const total = order.reduce((sum, i) => sum + weights[i], 0);
  const wanted = share * total;
  // Each sample stands for its weight, half below and half above its value (Hazen's plotting position).
  let below = 0;
  let before = order[0];
  let at = 0;
  for (const i of order) {
    const middle = below + weights[i] / 2;
    if (middle >= wanted) {
      if (i === order[0]) return values[i];
      return values[before] + ((values[i] - values[before]) * (wanted - at)) / (middle - at);
    }
    below += weights[i];
    at = middle;
    before = i;
  }
  return values[before];
}

/** A part of a distribution that is even from one value to another. */
interface Cell {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

/**
 * Value below which a share of the weight of cells lies.
 *
 * @param cells  By value, without overlap; gaps are allowed.
 * @param share  0 to 1.
 * @throws       RangeError when no cell has weight: the caller's bug.
 */
export function cellQuantile(cells: readonly Cell[], share: number): number {
  const total = cells.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) throw new RangeError("a quantile needs a cell with weight");
  let left = share * total;
  let end = 0;
  for (const { from, to, weight } of cells) {
    if (weight <= 0) continue;
    if (left <= weight) return from + ((to - from) * left) / weight;
    left -= weight;
    end = to;
  }
  return end;
}

/** Shannon's entropy of probabilities, nat. */
export function entropy(probabilities: ArrayLike<number>): number {
  let h = 0;
  for (let i = 0; i < probabilities.length; i++) {
    const p = probabilities[i];
    if (p > 0) h -= p * Math.log(p);
  }
  return h;
}
