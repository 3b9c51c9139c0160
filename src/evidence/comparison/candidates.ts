import { normal, type Random } from "../../numerics/index.ts";
import type { Proposal } from "../../inference/index.ts";
import type { Conditions, Vehicle } from "../../vehicle/index.ts";
import { type Calibration, predictAll } from "./calibrate.ts";
import type { ComparisonInput, Observation } from "./comparable.ts";
import { drawConditions } from "./condition-errors.ts";
import type { LabelModel } from "./label-model.ts";
import { ventOffset, withLumps } from "./lumps.ts";
import { resampled, temperedWeights } from "./resample.ts";
import { drawUnfitted, unfittedParameters } from "./unfitted.ts";

/** Parameters outside of the lumps, and conditions as they may have been. */
export interface Surroundings {
  readonly base: Vehicle;
  readonly conditions: readonly Conditions[];
  /** Observed readings of the label refrigerant minus the model with the fitted lumps. */
  readonly misfit: Float64Array;
}

/** A vehicle whose readings on the label refrigerant are known, and on nothing else. */
export interface Candidate {
  readonly surroundings: Surroundings;
  /** Place of its surroundings: candidates may share them. */
  readonly parent: number;
  /** Lumps in prior standard deviations. */
  readonly u: Float64Array;
  /** Of the fitted observations. */
  readonly predicted: Float64Array;
  readonly sizes: Float64Array;
  /** ln of the prior over the density that it was drawn from. */
  readonly logRatio: number;
}

export interface CandidateInput {
  readonly input: ComparisonInput;
  readonly observed: readonly Observation[];
  readonly calibration: Calibration;
  readonly model: LabelModel;
}

const fittedOf = ({ calibration, observed }: CandidateInput): Observation[] =>
  calibration.fit.data.flatMap((place) => observed[place] ?? []);

/**
 * Surroundings from their ranges, before any run is looked at.
 *
 * @param progress As of the ensemble, 0 to 1.
 * @returns undefined when it was stopped.
 */
export function drawSurroundings(
  from: CandidateInput,
  count: number,
  random: Random,
  progress: (share: number) => boolean,
): Surroundings[] | undefined {
  const { calibration, input, model } = from;
  const { u } = calibration;
  const names = unfittedParameters(input.vehicle, input.known);
  const fitted = fittedOf(from);
  const drawn: Surroundings[] = [];
  for (let k = 0; k < count; k++) {
    if (!progress(k / count)) return undefined;
    const base = drawUnfitted(input.vehicle, names, random);
    const conditions = drawConditions(input.runs, random);
    const vehicle = withLumps(base, u);
    const running = (run: number) => model.run(run, vehicle, conditions[run]);
    const predicted = new Float64Array(fitted.length);
    if (!predictAll(fitted, running, ventOffset(u), predicted)) continue;
    const misfit = predicted.map((each, i) => (fitted[i]?.value ?? 0) - each);
    drawn.push({ base, conditions, misfit });
  }
  return drawn;
}

/**
 * Candidates: surroundings as the runs on the label refrigerant bear them out, lumps from what the fit allows beside
 * these, both as if the model were straight. `logRatio` holds what that leaves out.
 *
 * @returns undefined when it was stopped.
 * Source: sampling importance resampling (Rubin 1988, from memory)
 */
export function drawCandidates(
  from: CandidateInput,
  surroundings: readonly Surroundings[],
  proposal: Proposal,
  count: number,
  random: Random,
  progress: (share: number) => boolean,
): Candidate[] | undefined {
  const fitted = fittedOf(from);
  const centre = from.calibration.u;
  const weights = temperedWeights(surroundings.map(({ misfit }) => proposal.logEvidence(misfit)));
  const parents = resampled(weights, count, random());
  const drawn: Candidate[] = [];
  for (const [k, parent] of parents.entries()) {
    if (!progress(k / count)) return undefined;
    const mine = surroundings[parent];
    if (!mine) continue;
    const z = Float64Array.from(centre, () => normal(random));
    const u = proposal.draw(mine.misfit, z).map((each, j) => near(each, centre[j] ?? 0));
    const vehicle = withLumps(mine.base, u);
    const running = (run: number) => from.model.run(run, vehicle, mine.conditions[run]);
    const predicted = new Float64Array(fitted.length);
    const sizes = new Float64Array(fitted.length);
    if (!predictAll(fitted, running, ventOffset(u), predicted, sizes)) continue;
    const logRatio = (square(z) - square(u)) / 2 - Math.log(weights[parent] ?? 1);
    drawn.push({ surroundings: mine, parent, u, predicted, sizes, logRatio });
  }
  return drawn;
}

/** Farthest from the fit, in prior standard deviations: where readings contradict each other the straight line ends. */
const FARTHEST = 3;

const near = (u: number, centre: number): number =>
  Math.min(centre + FARTHEST, Math.max(centre - FARTHEST, u));

const square = (x: Float64Array): number => x.reduce((sum, each) => sum + each * each, 0);
