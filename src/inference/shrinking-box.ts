import { quasiRandomPoint, quasiRandomSteps } from "./quasi-random.ts";
import { effectiveSamples, logSumExp, normalisedWeights, weightedQuantile } from "./weights.ts";

/** Weighted points of a posterior over the unit cube. */
export interface CubeSamples {
  readonly dimensions: number;
  /** Point after point. */
  readonly points: Float64Array;
  /** ln of the likelihood times the volume that the point stands for: their sum is the evidence. */
  readonly logWeights: Float64Array;
  /** ln of the likelihood alone. */
  readonly logLikelihoods: Float64Array;
  readonly logEvidence: number;
}

export interface BoxOptions {
  /** Points of each pass. */
  readonly points: number;
  /** Passes after the first, each in the box around what the ones before found. */
  readonly passes: number;
  /** In [0, 1). */
  readonly shift: number;
}

/** A pass ends the search when this many points carry the weight. */
const ENOUGH = 150;
/** Share of the weight left outside on either side of a new box, before it is widened. */
const TAIL = 0.002;
/** Of its width, on either side. */
const WIDER = 0.25;
/** No narrower than this, so that one lucky point cannot close the search around itself. */
const NARROWEST = 0.02;

interface Box {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly logVolume: number;
}

interface Pass {
  readonly box: Box;
  readonly points: Float64Array;
  readonly logLikelihoods: Float64Array;
}

/**
 * Posterior and evidence under an even prior on the unit cube, by quasi-random points in boxes that shrink around
 * the likelihood. What lies outside a box keeps the weight that earlier passes gave it, so that no mode is lost.
 *
 * @param logLikelihood  Of a point; −∞ where impossible. It must not keep the array.
 */
export function sampleCube(
  dimensions: number,
  logLikelihood: (u: Float64Array) => number,
  options: BoxOptions,
): CubeSamples {
  const passes: Pass[] = [];
  let box = unitBox(dimensions);
  let samples: CubeSamples | undefined;
  for (let pass = 0; pass <= options.passes; pass++) {
    passes.push(passIn(box, logLikelihood, { ...options, from: pass * options.points }));
    samples = combined(dimensions, passes);
    const weights = normalisedWeights(samples.logWeights);
    if (dimensions === 0 || samples.logEvidence === -Infinity) break;
    if (effectiveSamples(weights) >= ENOUGH) break;
    const next = boxAround(samples, weights, box);
    if (!next) break;
    box = next;
  }
  return samples ?? combined(dimensions, passes);
}

const unitBox = (dimensions: number): Box => ({
  low: new Float64Array(dimensions),
  high: new Float64Array(dimensions).fill(1),
  logVolume: 0,
});

function passIn(
  box: Box,
  logLikelihood: (u: Float64Array) => number,
  { points: wanted, shift, from }: BoxOptions & { readonly from: number },
): Pass {
  const d = box.low.length;
  const count = d === 0 ? 1 : wanted;
  const steps = quasiRandomSteps(d);
  const points = new Float64Array(count * d);
  const logLikelihoods = new Float64Array(count);
  const u = new Float64Array(d);
  for (let k = 0; k < count; k++) {
    quasiRandomPoint(steps, from + k, shift, u);
    for (let j = 0; j < d; j++) u[j] = box.low[j] + u[j] * (box.high[j] - box.low[j]);
    points.set(u, k * d);
    const log = logLikelihood(u);
    if (Number.isNaN(log)) throw new RangeError(`a likelihood is not a number at ${u.join(", ")}`);
    logLikelihoods[k] = log;
  }
  return { box, points, logLikelihoods };
}

function inside({ low, high }: Box, points: Float64Array, at: number): boolean {
  for (let j = 0; j < low.length; j++) {
    if (points[at + j] < low[j] || points[at + j] > high[j]) return false;
  }
  return true;
}

/** Every region is represented by the latest pass that covered it. */
function combined(d: number, passes: readonly Pass[]): CubeSamples {
  const points: number[] = [];
  const logWeights: number[] = [];
  const logLikelihoods: number[] = [];
  passes.forEach((pass, p) => {
    const later = passes.slice(p + 1);
    const count = pass.logLikelihoods.length;
    for (let k = 0; k < count; k++) {
      if (later.some(({ box }) => inside(box, pass.points, k * d))) continue;
      for (let j = 0; j < d; j++) points.push(pass.points[k * d + j]);
      logLikelihoods.push(pass.logLikelihoods[k]);
      logWeights.push(pass.logLikelihoods[k] + pass.box.logVolume - Math.log(count));
    }
  });
  return {
    dimensions: d,
    points: Float64Array.from(points),
    logWeights: Float64Array.from(logWeights),
    logLikelihoods: Float64Array.from(logLikelihoods),
    logEvidence: logSumExp(logWeights),
  };
}

/** Lighter points move no quantile of a tail. */
const LIGHT = 1e-8;

/** Around the weight inside the last box, which it never leaves; none where the weight lies outside. */
function boxAround({ points }: CubeSamples, weights: Float64Array, last: Box): Box | undefined {
  const d = last.low.length;
  const here: number[] = [];
  for (let k = 0; k < weights.length; k++) {
    if (weights[k] > LIGHT && inside(last, points, k * d)) here.push(k);
  }
  if (here.length === 0) return undefined;
  const heavy = Float64Array.from(here, (k) => weights[k]);
  const low = new Float64Array(d);
  const high = new Float64Array(d);
  let logVolume = 0;
  for (let j = 0; j < d; j++) {
    const values = Float64Array.from(here, (k) => points[k * d + j]);
    const from = weightedQuantile(values, heavy, TAIL);
    const to = weightedQuantile(values, heavy, 1 - TAIL);
    const half = Math.max((0.5 + WIDER) * (to - from), NARROWEST / 2);
    low[j] = Math.max(last.low[j], (from + to) / 2 - half);
    high[j] = Math.min(last.high[j], (from + to) / 2 + half);
    logVolume += Math.log(high[j] - low[j]);
  }
  return { low, high, logVolume };
}
