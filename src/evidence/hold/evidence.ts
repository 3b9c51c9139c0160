import { linearMarginal, type Marginal, positivePosterior } from "../../inference/index.ts";
import { designOf, beliefs, type HoldModel, timePrior } from "./models.ts";
import { type PreparedHold, weightsAt } from "./trace.ts";

/** One point of the grid over time constant and noise. */
export interface Node {
  /** ln of likelihood, priors and cell together. */
  readonly log: number;
  readonly tau: number;
  readonly noise: number;
  /** Of the first positive coefficient: the leak where there is one. */
  readonly lnMean: number;
  readonly lnVariance: number;
  readonly coefficients: readonly number[];
  readonly nuisances: Float64Array;
}

/** Noise levels with their weights: one grid for all models, so that none is judged by another measure. */
export interface NoiseGrid {
  readonly levels: readonly {
    readonly noise: number;
    readonly log: number;
    readonly weights: Float64Array;
  }[];
}

/** The hold with what is known of its gauge. */
export interface Measured {
  readonly hold: PreparedHold;
  /** Relative standard uncertainty of the gauge's scale. */
  readonly uGauge: number;
}

export function noiseGrid(hold: PreparedHold, from: number, to: number, count: number): NoiseGrid {
  const step = Math.log(to / from) / (count - 1);
  const { ln, sd } = beliefs.noise;
  const levels = Array.from({ length: count }, (_, i) => {
    const u = Math.log(from) + i * step;
    const log = -0.5 * ((u - ln) / sd) ** 2 + Math.log(step / (sd * Math.sqrt(2 * Math.PI)));
    return { noise: Math.exp(u), log, weights: weightsAt(hold, Math.exp(u)) };
  });
  return { levels };
}

const settled = (marginal: Marginal) => ({ log: marginal.log, lnMean: 0, lnVariance: 0, best: [] });

/** All noise levels at one time constant; `cell` is ln of prior and width of the time constant's cell. */
function nodesAt(
  model: HoldModel,
  { hold, uGauge }: Measured,
  grid: NoiseGrid,
  at: { tau: number; cell: number },
): Node[] {
  const { columns, nuisances, positive } = designOf(model, hold, uGauge, at.tau);
  return grid.levels.map(({ noise, log, weights }) => {
    const marginal = linearMarginal(columns, hold.p, weights, nuisances);
    const found = positive.length > 0 ? positivePosterior(marginal, positive) : settled(marginal);
    return {
      log: found.log + log + at.cell,
      tau: at.tau,
      noise,
      lnMean: found.lnMean,
      lnVariance: found.lnVariance,
      coefficients: found.best,
      nuisances: marginal.nuisances(found.best),
    };
  });
}

const best = (nodes: readonly Node[]): number =>
  nodes.reduce((most, { log }) => Math.max(most, log), -Infinity);

/** Reach of the time constant's prior, in its standard deviations. */
const REACH = 3.5;
const COARSE = 15;
const FINE = 11;
/** Differences of ln beyond which a time constant no longer counts. */
const NEGLIGIBLE = 14;

/** Every node of a model that counts, on a grid of time constants that is drawn in around the likely ones. */
export function nodesOf(
  model: HoldModel,
  measured: Measured,
  grid: NoiseGrid,
  rounds = 3,
): readonly Node[] {
  const prior = timePrior(model);
  if (!prior) return nodesAt(model, measured, grid, { tau: 1, cell: 0 });
  let [from, to] = [prior.ln - REACH * prior.sd, prior.ln + REACH * prior.sd];
  let nodes: Node[] = [];
  for (let round = 0; round < rounds; round++) {
    const count = round === 0 ? COARSE : FINE;
    const step = (to - from) / (count - 1);
    const columns = Array.from({ length: count }, (_, i) => {
      const u = from + i * step;
      const cell =
        -0.5 * ((u - prior.ln) / prior.sd) ** 2 +
        Math.log(step / (prior.sd * Math.sqrt(2 * Math.PI)));
      return nodesAt(model, measured, grid, { tau: Math.exp(u), cell });
    });
    nodes = columns.flat();
    const tops = columns.map(best);
    const top = Math.max(...tops);
    const counted = tops.flatMap((one, i) => (one > top - NEGLIGIBLE ? [i] : []));
    const low = Math.max(0, (counted[0] ?? 0) - 1);
    const high = Math.min(count - 1, (counted.at(-1) ?? count - 1) + 1);
    // Six or more cells across what counts: smooth enough to be summed.
    if (counted.length >= 6) break;
    [from, to] = [from + low * step, from + high * step];
  }
  return nodes;
}
