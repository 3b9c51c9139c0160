import { createRandom, normal, type Random } from "../../numerics/index.ts";
import { type ErrorGroup, proposalAround, type Proposal } from "../../inference/index.ts";
import type { Vehicle } from "../../vehicle/index.ts";
import { type Calibration, predictAll } from "./calibrate.ts";
import { comparedQuantities, type ComparisonInput, type Observation } from "./comparable.ts";
import { drawConditions } from "./condition-errors.ts";
import { type LabelModel, readOf } from "./label-model.ts";
import { ventOffset, withLumps } from "./lumps.ts";
import type { StandardCondition } from "./standard.ts";
import { drawUnfitted, unfittedParameters } from "./unfitted.ts";

/** One vehicle that may have been tested, and what it would have read on the label refrigerant. */
export interface DrawnVehicle {
  /** In the conditions of every observation. */
  readonly predicted: Float64Array;
  /** What the model leaves out of each. */
  readonly sizes: Float64Array;
  /** In the standard conditions: vent, low, high of each, one after the other. */
  readonly standard: Float64Array;
  /** ln of the prior over the density that it was drawn from. */
  readonly logRatio: number;
}

/** Vehicles drawn around the fit; what each weighs is told by the readings. */
export interface Ensemble {
  readonly drawn: readonly DrawnVehicle[];
  /** Draws in which the model did not run: not counted. */
  readonly lost: number;
}

export interface EnsembleInput {
  readonly input: ComparisonInput;
  readonly observed: readonly Observation[];
  readonly calibration: Calibration;
  readonly model: LabelModel;
  /** What the model leaves out of every observation, at the fit. */
  readonly nominalSizes: Float64Array;
  readonly groups: readonly ErrorGroup[];
  readonly standard: readonly StandardCondition[];
  /** Model of the label refrigerant in the standard conditions. */
  readonly standardModel: LabelModel;
  readonly draws: number;
  readonly seed: number;
  /** @returns false to stop. */
  readonly progress: (share: number) => boolean;
}

/**
 * Draws what the fit could not know: other parameters in their ranges and errors of the conditions from their
 * priors, then the lumps from what the fit allows them beside these, as if the model were straight.
 *
 * @returns undefined when it was stopped.
 */
export function drawEnsemble(from: EnsembleInput): Ensemble | undefined {
  const { calibration, input, groups, nominalSizes } = from;
  const { u, covariance, fit } = calibration;
  const random = createRandom(from.seed);
  const names = unfittedParameters(input.vehicle, input.known);
  const proposal = proposalAround(u, covariance, groups, nominalSizes, fit);
  const drawn: DrawnVehicle[] = [];
  for (let k = 0; k < from.draws; k++) {
    if (!from.progress(k / from.draws)) return undefined;
    const base = drawUnfitted(input.vehicle, names, random);
    const one = drawVehicle(from, base, proposal, random);
    if (one) drawn.push(one);
  }
  return { drawn, lost: from.draws - drawn.length };
}

function drawVehicle(
  from: EnsembleInput,
  base: Vehicle,
  proposal: Proposal,
  random: Random,
): DrawnVehicle | undefined {
  const { input, observed, calibration, model, standard } = from;
  const conditions = drawConditions(input.runs, random);
  const { u: centre, fit } = calibration;
  const z = Float64Array.from(centre, () => normal(random));
  const running = (at: Float64Array) => {
    const vehicle = withLumps(base, at);
    return (run: number) => model.run(run, vehicle, conditions[run]);
  };
  const baseline = fit.data.flatMap((place) => observed[place] ?? []);
  const misfit = new Float64Array(baseline.length);
  if (!predictAll(baseline, running(centre), ventOffset(centre), misfit)) return undefined;
  baseline.forEach(({ value }, i) => {
    misfit[i] = value - (misfit[i] ?? 0);
  });
  const u = proposal.draw(misfit, z);
  const predicted = new Float64Array(observed.length);
  const sizes = new Float64Array(observed.length);
  if (!predictAll(observed, running(u), ventOffset(u), predicted, sizes)) return undefined;
  const levels = new Float64Array(standard.length * comparedQuantities.length);
  if (!standardLevels(from, withLumps(base, u), u, levels)) return undefined;
  return { predicted, sizes, standard: levels, logRatio: (square(z) - square(u)) / 2 };
}

const square = (x: Float64Array): number => x.reduce((sum, each) => sum + each * each, 0);

function standardLevels(
  { standard, standardModel }: EnsembleInput,
  vehicle: Vehicle,
  u: Float64Array,
  out: Float64Array,
): boolean {
  const m = comparedQuantities.length;
  for (let k = 0; k < standard.length; k++) {
    const state = standardModel.run(k, vehicle);
    if (!state) return false;
    for (const [i, quantity] of comparedQuantities.entries()) {
      out[k * m + i] = readOf(state, quantity, "steady", ventOffset(u));
    }
  }
  return true;
}
