import { logSumExp, lognormalMixtureQuantile } from "../../inference/index.ts";
import { type Measured, type Node, noiseGrid, type NoiseGrid, nodesOf } from "./evidence.ts";
import { designOf, type HoldCause, type HoldModel, holdModels } from "./models.ts";
import { type HoldRows, prepareHold } from "./trace.ts";

/** What one picture makes of the trace, at its most probable coefficients. */
export interface HoldFit {
  readonly model: string;
  readonly cause: HoldCause;
  readonly probability: number;
  /** Curve over the rows' times, s and Pa. */
  readonly t: Float64Array;
  readonly p: Float64Array;
  /** Pressure at the start by the fit, Pa. */
  readonly start: number;
  /** Rise by a leak alone, Pa/s. */
  readonly leakSlope?: number;
  /** Rise that outgassing adds in the end (exponential), or its scale, Pa. */
  readonly gasRise?: number;
  /** Pressure that a wet system ends at, as the gauge shows it, Pa. */
  readonly plateau?: number;
  /** Time constant, s. */
  readonly tau?: number;
}

export interface LeakRate {
  /** Median and 95 % interval of V·dp/dt, Pa m3/s. */
  readonly rate: number;
  readonly from: number;
  readonly to: number;
}

export interface HoldAnalysis {
  readonly cause: HoldCause | "undecided";
  readonly probabilities: Readonly<Record<HoldCause, number>>;
  /**
   * Throughput of the leak **if** there is one: marginal over all leaking pictures. Where the verdict is not
   * leaking, `to` is the largest leak that the trace would have left room for.
   */
  readonly leak: LeakRate;
  /** All pictures, most probable first. */
  readonly fits: readonly HoldFit[];
  /** Random error found, as a share of the reading. */
  readonly noise: number;
  /** Step of the gauge's figures that was used, Pa. */
  readonly step: number;
  readonly rows: number;
}

/** Probability from which a cause is named: three to one against all others together. Below it the trace leaves it open. */
export const DECIDED = 0.75;

/** Levels of noise looked at, as shares of the reading. */
const NOISE = { from: 3e-4, to: 0.15 };
const FEWER = 9;
const MORE = 9;
const NEGLIGIBLE = 12;

/**
 * Tells what a vacuum hold means: Bayesian choice among physical pictures with proper priors.
 *
 * Drift of temperature, the gauge's scale, its step and its scatter are integrated out.
 *
 * @param rows       At least 4, times rising, pressures positive.
 * @param volume     Internal volume of what was held, m3, with its relative standard uncertainty.
 * @param uGauge     Relative standard uncertainty of the gauge's scale.
 * @param resolution Step of the gauge, Pa, where known.
 * @throws           RangeError for fewer rows: the caller's bug.
 * Model: docs/models/evacuation.md. Checked: hold.test.ts, test/campaign/hold.campaign.test.ts.
 */
export function analyseHold(
  rows: HoldRows,
  about: {
    readonly volume: number;
    readonly uVolume: number;
    readonly uGauge: number;
    readonly resolution?: number;
  },
): HoldAnalysis {
  if (rows.t.length < 4) throw new RangeError(`a hold of ${rows.t.length} rows`);
  const hold = prepareHold(rows, about.resolution);
  const measured = { hold, uGauge: about.uGauge };
  const grid = drawnIn(measured);
  const all = holdModels.map((model) => ({ model, nodes: nodesOf(model, measured, grid) }));
  const logs = all.map(
    ({ model, nodes }) => Math.log(model.prior) + logSumExp(nodes.map(({ log }) => log)),
  );
  const total = logSumExp(logs);
  const judged = all.map((one, i) => ({ ...one, probability: Math.exp((logs[i] ?? 0) - total) }));
  const probabilities = byCause(judged);
  const [likeliest] = (Object.keys(probabilities) as HoldCause[]).sort(
    (a, b) => probabilities[b] - probabilities[a],
  );
  const top = judged.reduce((a, b) => (b.probability > a.probability ? b : a));
  return {
    cause: likeliest !== undefined && probabilities[likeliest] >= DECIDED ? likeliest : "undecided",
    probabilities,
    leak: leakRate(judged, about),
    fits: judged.map((one) => fitOf(one, measured)).sort((a, b) => b.probability - a.probability),
    noise: bestNode(top.nodes).noise,
    step: hold.step,
    rows: hold.t.length,
  };
}

/** The noise levels that any picture finds likely. */
function drawnIn(measured: Measured): NoiseGrid {
  const wide = noiseGrid(measured.hold, NOISE.from, NOISE.to, FEWER);
  const tops = new Float64Array(FEWER).fill(-Infinity);
  for (const model of holdModels.filter(({ leak, source }) => !leak || !source)) {
    const nodes = nodesOf(model, measured, wide, 2);
    nodes.forEach(({ log }, i) => (tops[i % FEWER] = Math.max(tops[i % FEWER] ?? -Infinity, log)));
  }
  const top = Math.max(...tops);
  const counted = [...tops].flatMap((one, i) => (one > top - NEGLIGIBLE ? [i] : []));
  const at = (i: number): number =>
    wide.levels[Math.min(FEWER - 1, Math.max(0, i))]?.noise ?? NOISE.from;
  return noiseGrid(
    measured.hold,
    at((counted[0] ?? 0) - 1),
    at((counted.at(-1) ?? FEWER) + 1),
    MORE,
  );
}

interface Judged {
  readonly model: HoldModel;
  readonly nodes: readonly Node[];
  readonly probability: number;
}

function byCause(judged: readonly Judged[]): Record<HoldCause, number> {
  const sums = { tight: 0, wet: 0, outgassing: 0, leaking: 0 };
  for (const { model, probability } of judged) sums[model.cause] += probability;
  return sums;
}

const bestNode = (nodes: readonly Node[]): Node => nodes.reduce((a, b) => (b.log > a.log ? b : a));

/** Marginal over all leaking pictures; gauge's scale and volume widen it. */
function leakRate(
  judged: readonly Judged[],
  {
    volume,
    uVolume,
    uGauge,
  }: { readonly volume: number; readonly uVolume: number; readonly uGauge: number },
): LeakRate {
  const leaking = judged.filter(({ model }) => model.leak);
  const scale = Math.max(
    ...leaking.map(({ model, nodes }) => Math.log(model.prior) + bestNode(nodes).log),
  );
  const widened = uGauge ** 2 + uVolume ** 2;
  const parts = leaking.flatMap(({ model, nodes }) =>
    nodes
      .map(({ log, lnMean, lnVariance }) => ({
        weight: Math.exp(log + Math.log(model.prior) - scale),
        ln: lnMean + Math.log(volume),
        variance: lnVariance + widened,
      }))
      .filter(({ weight }) => weight > 1e-7),
  );
  return {
    rate: lognormalMixtureQuantile(parts, 0.5),
    from: lognormalMixtureQuantile(parts, 0.025),
    to: lognormalMixtureQuantile(parts, 0.975),
  };
}

function fitOf({ model, nodes, probability }: Judged, { hold, uGauge }: Measured): HoldFit {
  const { tau, coefficients, nuisances } = bestNode(nodes);
  const { columns } = designOf(model, hold, uGauge, tau);
  const factors = [...nuisances, ...coefficients];
  const p = hold.t.map((_, i) =>
    columns.reduce((sum, column, j) => sum + (column[i] ?? 0) * (factors[j] ?? 0), 0),
  );
  const last = coefficients.at(-1);
  return {
    model: model.id,
    cause: model.cause,
    probability,
    t: hold.t,
    p,
    start: nuisances[0] ?? 0,
    ...(model.leak && coefficients[0] !== undefined && { leakSlope: coefficients[0] }),
    ...(model.source?.kind === "gas" && last !== undefined && { gasRise: last }),
    ...(model.source?.kind === "water" && last !== undefined && { plateau: last }),
    ...(model.source && { tau }),
  };
}
