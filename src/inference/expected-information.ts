import { entropy } from "./weights.ts";

/** Points of a posterior over hypotheses, each with a possible outcome of a measurement not yet taken. */
export interface ForeseenOutcomes<Outcome> {
  /** Weights of the points, sum 1. */
  readonly weights: ArrayLike<number>;
  /** Index of the hypothesis that each point belongs to. */
  readonly hypothesis: ArrayLike<number>;
  readonly hypotheses: number;
  /** Outcomes that the measurement may have, each as probable as its weight says. */
  readonly outcomes: readonly { readonly outcome: Outcome; readonly weight: number }[];
  /** ln of the probability (density) of an outcome if a point is the truth. */
  logDensity(outcome: Outcome, point: number): number;
}

/**
 * How much a measurement is expected to say about which hypothesis holds: the entropy now less the mean entropy
 * after it, nat. Never below zero but for the scatter of the outcomes, which is cut off.
 *
 * Source: Lindley, Ann. Math. Stat. 27 (1956) 986
 */
export function expectedInformation<Outcome>(foreseen: ForeseenOutcomes<Outcome>): number {
  const { weights, hypothesis, hypotheses, outcomes } = foreseen;
  const before = new Float64Array(hypotheses);
  for (let k = 0; k < weights.length; k++) before[hypothesis[k]] += weights[k];
  let after = 0;
  let total = 0;
  const posterior = new Float64Array(hypotheses);
  const logs = new Float64Array(weights.length);
  for (const { outcome, weight } of outcomes) {
    let largest = -Infinity;
    for (let k = 0; k < weights.length; k++) {
      logs[k] = foreseen.logDensity(outcome, k);
      largest = Math.max(largest, logs[k]);
    }
    if (largest === -Infinity || weight <= 0) continue;
    posterior.fill(0);
    let sum = 0;
    for (let k = 0; k < weights.length; k++) {
      const w = weights[k] * Math.exp(logs[k] - largest);
      posterior[hypothesis[k]] += w;
      sum += w;
    }
    for (let h = 0; h < hypotheses; h++) posterior[h] /= sum;
    after += weight * entropy(posterior);
    total += weight;
  }
  return total === 0 ? 0 : Math.max(0, entropy(before) - after / total);
}
