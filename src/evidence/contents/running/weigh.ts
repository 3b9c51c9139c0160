import {
  type CubeSamples,
  type Gaussian,
  logDensity,
  logSumExp,
  normalisedWeights,
  throughPoints,
} from "../../../inference/index.ts";
import type { FluidId } from "../../../fluids/index.ts";
import type { Composition } from "../../../vehicle/index.ts";
import { placeAt } from "../compositions.ts";
import type { RunningEvidence } from "../evidence.ts";
import type { JudgedCell, JudgedFamily, Posterior } from "../posterior.ts";
import { forecasterOf } from "./forecast.ts";
import { distance, nodesOf, type RunCell } from "./nodes.ts";

/**
 * Chance that a run is not what it is said to be, or the vehicle not sound: then it says nothing about the content.
 * With it no run speaks against a content by more than a factor of ten (a choice, no source).
 */
const ASTRAY = 0.1;
/** Mass fraction over which forecasts bend. */
const BENDS = 0.25;

/** What a run says of the contents that the model ran. */
export interface WeighedRun {
  readonly evidence: RunningEvidence;
  /** ln of the density of its readings, by family and part, at a composition; undefined where the model has no answer. */
  readonly cells: ReadonlyMap<string, (masses: ArrayLike<number>) => number | undefined>;
  /** Families that the model ran at least once. */
  readonly answered: ReadonlySet<string>;
}

const keyOf = (family: string, part: number): string => `${family} ${part}`;

/**
 * Runs the vehicle's model on what is still probable at rest.
 *
 * @param rest The posterior of everything else: it chooses the contents, by their weight.
 */
export function weighedRun(evidence: RunningEvidence, rest: Posterior): WeighedRun {
  const forecaster = forecasterOf(evidence);
  const answered = new Set<string>();
  const cells = new Map<string, (masses: ArrayLike<number>) => number | undefined>();
  if (forecaster) {
    for (const cell of nodesOf(rest)) {
      const forecasts = cell.nodes.map((node) => forecaster.forecast(whole(cell.fluids, node)));
      if (forecasts.some((one) => one !== undefined)) answered.add(cell.family);
      cells.set(keyOf(cell.family, cell.part), between(cell, forecasts, forecaster.y));
    }
  }
  return { evidence, cells, answered };
}

/** A composition without the parts that are not there. */
function whole(fluids: readonly FluidId[], masses: Float64Array): Composition {
  const ids = fluids.filter((_, i) => (masses[i] ?? 0) > 0);
  const some = Array.from(masses).filter((share) => share > 0);
  const sum = some.reduce((all, share) => all + share, 0);
  return { ids, fractions: some.map((share) => share / sum) };
}

/** Means run through the nodes; the spread is that of the nearest one, and where that has none there is no answer. */
function between(
  { nodes }: RunCell,
  forecasts: readonly (Gaussian | undefined)[],
  y: Float64Array,
): (masses: ArrayLike<number>) => number | undefined {
  const solved = nodes.flatMap((node, k) => {
    const expected = forecasts[k];
    return expected ? [{ node, expected }] : [];
  });
  if (solved.length === 0) return () => undefined;
  const means = throughPoints(
    solved.map(({ node }) => node),
    solved.map(({ expected }) => expected.mean),
    BENDS,
  );
  return (masses) => {
    let nearest = 0;
    nodes.forEach((node, k) => {
      if (distance(node, masses) < distance(nodes[nearest] ?? node, masses)) nearest = k;
    });
    const expected = forecasts[nearest];
    return expected && logDensity({ mean: means(masses), covariance: expected.covariance }, y);
  };
}

/**
 * Moves a posterior by a run. What the model ran shares its probability anew by how well it foresaw the readings;
 * what it could not run keeps its own, as if the run had been expected of it as of the others together. So nothing
 * is punished or rewarded because a model has no answer for it.
 */
export function withRun(before: Posterior, { cells }: WeighedRun): Posterior {
  const scored = before.families.map((judged) =>
    judged.parts.map((_, part) => logsOf(judged, part, cells)),
  );
  const weights: number[] = [];
  const weighed: number[] = [];
  before.families.forEach(({ prior, parts }, f) => {
    parts.forEach(({ matter, samples }, part) => {
      scored[f]?.[part]?.forEach((log, k) => {
        if (log === undefined) return;
        const own = Math.log(prior) + Math.log(matter.cell.weight) + (samples.logWeights[k] ?? 0);
        weights.push(own);
        weighed.push(own + log);
      });
    });
  });
  const usual = logSumExp(weighed) - logSumExp(weights);
  if (!Number.isFinite(usual)) return before;
  const factor = (log: number | undefined): number =>
    log === undefined ? 0 : Math.log((1 - ASTRAY) * Math.exp(log - usual) + ASTRAY);
  const moved = before.families.map((judged, f) =>
    familyWith(
      judged,
      judged.parts.map((cell, part) => cellWith(cell, scored[f]?.[part]?.map(factor))),
    ),
  );
  const probabilities = normalisedWeights(
    moved.map(({ prior, logEvidence }) => Math.log(prior) + logEvidence),
  );
  return {
    ...before,
    families: moved
      .map((judged, f) => ({ ...judged, probability: probabilities[f] ?? 0 }))
      .sort((a, b) => b.probability - a.probability || b.logEvidence - a.logEvidence),
  };
}

/** Points that weigh less than this beside the heaviest are not looked at, ln. */
const LIGHT = -14;

function logsOf(
  judged: JudgedFamily,
  part: number,
  cells: WeighedRun["cells"],
): (number | undefined)[] | undefined {
  const cell = cells.get(keyOf(judged.family.id, part));
  const logWeights = judged.parts[part]?.samples.logWeights;
  if (!cell || !logWeights) return undefined;
  const heaviest = logWeights.reduce((most, each) => Math.max(most, each), -Infinity);
  const n = judged.family.fluids.length;
  return Array.from(logWeights, (weight, k) => {
    if (weight < heaviest + LIGHT) return undefined;
    const masses = placeAt(judged, part, k).masses()?.share;
    return masses && cell(Array.from({ length: n }, (_, i) => masses[i] ?? 0));
  });
}

function cellWith(cell: JudgedCell, factors: readonly number[] | undefined): JudgedCell {
  if (!factors) return cell;
  const { matter, samples } = cell;
  const add = (logs: Float64Array): Float64Array => logs.map((log, k) => log + (factors[k] ?? 0));
  const logWeights = add(samples.logWeights);
  const moved: CubeSamples = {
    ...samples,
    logWeights,
    logLikelihoods: add(samples.logLikelihoods),
    logEvidence: logSumExp(logWeights),
  };
  return { matter, samples: moved, logWeight: Math.log(matter.cell.weight) + moved.logEvidence };
}

const familyWith = (judged: JudgedFamily, parts: readonly JudgedCell[]): JudgedFamily => ({
  ...judged,
  parts,
  logEvidence: logSumExp(parts.map(({ logWeight }) => logWeight)),
  logBest: parts.reduce(
    (best, { samples }) => samples.logLikelihoods.reduce((a, b) => Math.max(a, b), best),
    -Infinity,
  ),
});
