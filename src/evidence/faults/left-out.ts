import type { Gaussian } from "../../inference/index.ts";
import type { Conditions, Running } from "../../vehicle/index.ts";
import {
  discrepancy,
  effectShare,
  faultQuantities,
  innerWidth,
  outer,
  ventOffBalance,
} from "./quantities.ts";

/** What a run must tell for its share of what the model leaves out. */
interface Left {
  readonly conditions: Conditions;
  readonly regime: Running["regime"];
}

/**
 * Differences of conditions over which what the model leaves out loses its likeness: m/s, rev/s and K. The low ends of
 * what variants of this model show are taken, because a real vehicle is less like the model than its variants are.
 */
const reach = { speed: 40, engineSpeed: 40, ambient: 40 };

/**
 * How alike two runs are in what the model leaves out. It is a structure of the vehicle, not noise: repeated in the
 * same conditions it is the same, in other ones less so. A kernel, as for any discrepancy of a model that is a
 * function of its conditions (Kennedy and O'Hagan 2001).
 */
function likeness(a: Conditions, b: Conditions): number {
  const apart =
    Math.abs(a.speed - b.speed) / reach.speed +
    Math.abs(a.engineSpeed - b.engineSpeed) / reach.engineSpeed +
    Math.abs(a.ambient - b.ambient) / reach.ambient;
  return Math.exp(-apart);
}

/**
 * Covariance of what the model leaves out: in a sound vehicle, and of the fault's own effect.
 *
 * @param mean    Of the readings of all runs, after each other.
 * @param healthy What a sound vehicle shows in the same runs; without it there is no fault's effect.
 */
export function leftOut(
  mean: Float64Array,
  runs: readonly Left[],
  healthy: Gaussian | undefined,
): Float64Array {
  const n = mean.length;
  const sum = new Float64Array(n * n);
  const size = faultQuantities.length;
  const own = Array.from(mean, (value, i) => ownWidth(value, i % size, runs[Math.floor(i / size)]));
  const effect = Array.from(mean, (value, i) =>
    healthy ? effectShare * (value - (healthy.mean[i] ?? 0)) : 0,
  );
  for (const [a, first] of runs.entries()) {
    for (const [b, second] of runs.entries()) {
      const shared = likeness(first.conditions, second.conditions);
      for (let q = 0; q < size; q++) {
        const [i, j] = [a * size + q, b * size + q];
        const both = (own[i] ?? 0) * (own[j] ?? 0) + (effect[i] ?? 0) * (effect[j] ?? 0);
        sum[i * n + j] = shared * both;
      }
    }
  }
  return sum;
}

function ownWidth(value: number, at: number, run: Left | undefined): number {
  const quantity = faultQuantities[at];
  if (!quantity) return 0;
  const off = quantity === "vent" && run?.regime !== "balanced";
  const width = off ? ventOffBalance : discrepancy[quantity];
  return innerWidth(quantity, outer(quantity, value), width);
}
