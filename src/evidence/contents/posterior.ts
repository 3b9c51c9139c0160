import {
  type CubeSamples,
  logSumExp,
  normalisedWeights,
  sampleCube,
} from "../../inference/index.ts";
import type { Evidence, LabelEvidence } from "./evidence.ts";
import { families, type Family, labelTrust } from "./families.ts";
import { type Matter, matterOf } from "./matter.ts";
import { scoreOf } from "./score.ts";

/** A family after the evidence. */
export interface JudgedFamily {
  readonly family: Family;
  readonly prior: number;
  readonly probability: number;
  /** ln of the mean likelihood under the family's prior. */
  readonly logEvidence: number;
  /** ln of the likelihood where it fits best, and the misfit there. */
  readonly logBest: number;
  readonly misfit: number;
  readonly parts: readonly JudgedCell[];
}

/** A part of a family with its weighted points. */
export interface JudgedCell {
  readonly matter: Matter;
  readonly samples: CubeSamples;
  /** ln of the part's share of the family, before and after. */
  readonly logWeight: number;
}

export interface Posterior {
  /** Most probable first. */
  readonly families: readonly JudgedFamily[];
  /** Figures that the misfit is the sum over. */
  readonly measured: number;
}

export interface PosteriorOptions {
  /** Prior weights by family that replace those of the house. */
  readonly prior?: Readonly<Record<string, number>>;
  readonly seed: number;
  /** Quasi-random points a pass of a part with four coordinates; fewer with fewer. */
  readonly points: number;
  readonly passes: number;
  /** Families to look at; all if left out. */
  readonly among?: readonly string[];
}

const LEAST_PRIOR = 1e-6;

/** What every family's prior becomes by the given weights and the labels. */
export function priorsOf(
  evidence: readonly Evidence[],
  prior: Readonly<Record<string, number>> = {},
): Float64Array {
  const weights = Float64Array.from(families, ({ id, prior: usual }) => prior[id] ?? usual);
  // "None of these" stays possible whatever the weights, so that some family always is.
  const none = families.findIndex(({ kind }) => kind === "none");
  weights[none] = Math.max(LEAST_PRIOR, weights[none] ?? 0);
  const labels = evidence.filter((each): each is LabelEvidence => each.kind === "label");
  for (const { declares, trust = labelTrust } of labels) {
    const at = families.findIndex(({ id }) => id === declares);
    const sum = weights.reduce((total, each) => total + each, 0);
    if (at < 0 || !(sum > 0)) continue;
    for (let i = 0; i < weights.length; i++) weights[i] = ((weights[i] ?? 0) / sum) * (1 - trust);
    weights[at] = (weights[at] ?? 0) + trust;
  }
  const sum = weights.reduce((total, each) => total + each, 0);
  return sum > 0 ? weights.map((each) => each / sum) : weights;
}

/** One matter a cell, built once: their tables serve every question. */
const matters = new Map<string, readonly Matter[]>();
function mattersOf(family: Family): readonly Matter[] {
  const known = matters.get(family.id);
  if (known) return known;
  const built = family.cells.map((cell) => matterOf(family, cell));
  matters.set(family.id, built);
  return built;
}

/** Points a pass by the number of coordinates, of those asked for. */
const POINTS = [1, 0.12, 0.25, 0.5, 1, 1.5] as const;

/** Enough to show a prior where nothing was measured. */
const SILENT_POINTS = 64;

/** Probabilities of all families under the evidence; every one −∞ or 0 cannot be, because "none of these" is among them. */
export function posteriorOf(evidence: readonly Evidence[], options: PosteriorOptions): Posterior {
  const score = scoreOf(evidence);
  const priors = priorsOf(evidence, options.prior);
  const shift = (((options.seed * 0.754877666) % 1) + 1) % 1;
  const judged = families.flatMap((family, k) => {
    const prior = priors[k] ?? 0;
    if (prior <= 0 || options.among?.includes(family.id) === false) return [];
    let logBest = -Infinity;
    let misfit = Infinity;
    const parts = mattersOf(family).map((matter) => {
      const wanted = options.points * (POINTS[matter.dimensions] ?? 1.5);
      const points = Math.ceil(score.silent ? Math.min(wanted, SILENT_POINTS) : wanted);
      const samples = sampleCube(
        matter.dimensions,
        (u) => {
          matter.place(u);
          const log = score.logLikelihood(matter);
          if (log > logBest) [logBest, misfit] = [log, score.misfit];
          return log;
        },
        { points, passes: options.passes, shift },
      );
      return { matter, samples, logWeight: Math.log(matter.cell.weight) + samples.logEvidence };
    });
    const logEvidence = logSumExp(parts.map(({ logWeight }) => logWeight));
    return [{ family, prior, logEvidence, logBest, misfit, parts }];
  });
  const weights = normalisedWeights(
    judged.map(({ prior, logEvidence }) => Math.log(prior) + logEvidence),
  );
  return {
    families: judged
      .map((each, k) => ({ ...each, probability: weights[k] ?? 0 }))
      .sort((a, b) => b.probability - a.probability || b.logEvidence - a.logEvidence),
    measured: score.measured,
  };
}
