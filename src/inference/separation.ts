/** A mixture of normal distributions along one axis; weights sum to 1. */
export type Mixture = readonly {
  readonly weight: number;
  readonly mean: number;
  readonly sd: number;
}[];

const steps = 400;
/** Standard deviations beyond the outermost component at which nothing is left. */
const reach = 6;

/**
 * Information that a reading is expected to give on which of two hypotheses holds: the mutual information of the
 * reading and the choice, bits.
 *
 * @param chance Of the first hypothesis, 0 to 1; the second has the rest.
 * @returns      0 for readings that look the same, at most the entropy of the choice.
 */
export function separation(a: Mixture, b: Mixture, chance: number): number {
  if (a.length === 0 || b.length === 0 || !(chance > 0 && chance < 1)) return 0;
  let [from, to] = [Infinity, -Infinity];
  for (const { mean, sd } of [...a, ...b]) {
    from = Math.min(from, mean - reach * sd);
    to = Math.max(to, mean + reach * sd);
  }
  const step = (to - from) / steps;
  let information = 0;
  for (let i = 0; i < steps; i++) {
    const y = from + (i + 0.5) * step;
    const pa = chance * density(a, y);
    const pb = (1 - chance) * density(b, y);
    const p = pa + pb;
    if (pa > 0) information += pa * Math.log2(pa / p / chance) * step;
    if (pb > 0) information += pb * Math.log2(pb / p / (1 - chance)) * step;
  }
  return Math.max(0, information);
}

function density(mixture: Mixture, y: number): number {
  let sum = 0;
  for (const { weight, mean, sd } of mixture) {
    const r = (y - mean) / sd;
    sum += (weight / sd) * Math.exp(-0.5 * r * r);
  }
  return sum / Math.sqrt(2 * Math.PI);
}
