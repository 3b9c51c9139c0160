import { createRandom, normal, type Random } from "../../numerics/index.ts";
import type { Vehicle } from "../../vehicle/index.ts";
import { type Calibration, predictAll } from "./calibrate.ts";
import { comparedQuantities, type ComparisonInput, type Observation } from "./comparable.ts";
import { drawConditions } from "./condition-errors.ts";
import { choleskyOf } from "./errors.ts";
import { type LabelModel, readOf } from "./label-model.ts";
import { lumps, ventOffset, withLumps } from "./lumps.ts";
import type { StandardCondition } from "./standard.ts";
import { drawUnfitted, unfittedParameters } from "./unfitted.ts";

/** Vehicles that agree with the baseline as well as the fitted one, and what each would have read. */
export interface Ensemble {
  /** Label refrigerant in the conditions of every observation, one array a draw. */
  readonly predicted: readonly Float64Array[];
  /** Errors of the readings that went with each draw. */
  readonly errors: readonly Float64Array[];
  /** Label refrigerant in the standard conditions: vent, low, high of each, one after the other. */
  readonly standard: readonly Float64Array[];
  /** Draws in which the model did not run: not counted. */
  readonly lost: number;
}

export interface EnsembleInput {
  readonly input: ComparisonInput;
  readonly observed: readonly Observation[];
  readonly calibration: Calibration;
  readonly model: LabelModel;
  /** At the fit, of every observation. */
  readonly nominal: Float64Array;
  /** Covariance of errors and the observations that it is of, by quantity. */
  readonly covariances: readonly { readonly at: readonly number[]; readonly of: Float64Array }[];
  readonly standard: readonly StandardCondition[];
  /** Model of the label refrigerant in the standard conditions. */
  readonly standardModel: LabelModel;
  readonly draws: number;
  readonly seed: number;
  /** @returns false to stop. */
  readonly progress: (share: number) => boolean;
}

/**
 * Draws what the fit could not know: the lumps' remainder, the other parameters in their ranges, errors of
 * conditions and of readings. The baseline's readings are made anew with each draw and the linear answer of the
 * fit to them moves the lumps, so that errors which the fit has followed are not counted twice.
 *
 * @returns undefined when it was stopped.
 */
export function drawEnsemble(from: EnsembleInput): Ensemble | undefined {
  const { observed, standard, input } = from;
  const random = createRandom(from.seed);
  const names = unfittedParameters(input.vehicle, input.known);
  const roots = from.covariances.map(({ at, of }) => ({ at, root: choleskyOf(at.length, of) }));
  const predicted: Float64Array[] = [];
  const errors: Float64Array[] = [];
  const levels: Float64Array[] = [];
  let lost = 0;
  for (let k = 0; k < from.draws; k++) {
    if (!from.progress(k / from.draws)) return undefined;
    const error = drawErrors(observed.length, roots, random);
    const base = drawUnfitted(input.vehicle, names, random);
    const out = new Float64Array(observed.length);
    const level = new Float64Array(standard.length * comparedQuantities.length);
    const u = drawLumps(from, base, error, random, out);
    if (u && standardLevels(from, withLumps(base, u), u, level)) {
      predicted.push(out);
      errors.push(error);
      levels.push(level);
    } else lost++;
  }
  return { predicted, errors, standard: levels, lost };
}

function drawErrors(
  n: number,
  roots: readonly { readonly at: readonly number[]; readonly root: Float64Array }[],
  random: Random,
): Float64Array {
  const error = new Float64Array(n);
  for (const { at, root } of roots) {
    const z = at.map(() => normal(random));
    at.forEach((place, i) => {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += (root[i * at.length + k] ?? 0) * (z[k] ?? 0);
      error[place] = sum;
    });
  }
  return error;
}

/** Lumps of one draw; its predictions of every observation into `out`. */
function drawLumps(
  { input, observed, calibration, model, nominal }: EnsembleInput,
  base: Vehicle,
  error: Float64Array,
  random: Random,
  out: Float64Array,
): Float64Array | undefined {
  const conditions = drawConditions(input.runs, random);
  const { u, data } = calibration;
  const predict = (of: readonly Observation[], at: Float64Array, to: Float64Array): boolean => {
    const vehicle = withLumps(base, at);
    return predictAll(of, (run) => model.run(run, vehicle, conditions[run]), ventOffset(at), to);
  };
  const baseline = data.flatMap((place) => observed[place] ?? []);
  const prior = Float64Array.from(u, () => normal(random));
  const shifts = new Float64Array(baseline.length);
  if (!predict(baseline, u, shifts)) return undefined;
  for (const [i, place] of data.entries()) {
    shifts[i] = (shifts[i] ?? 0) - (nominal[place] ?? 0) + (error[place] ?? 0);
  }
  const drawn = stepOf(calibration, prior, shifts);
  return predict(observed, drawn, out) ? drawn : undefined;
}

/** Farthest that a draw may stand from the fit, in prior standard deviations: the linear answer ends somewhere. */
const FARTHEST = 3;

/** The fitted lumps, moved by a draw of their prior and by the fit's linear answer to shifted readings. */
function stepOf(
  { u, covariance, gain, sigma }: Calibration,
  prior: Float64Array,
  shifts: Float64Array,
): Float64Array {
  const n = lumps.length;
  return u.map((centre, j) => {
    let step = 0;
    for (let k = 0; k < n; k++) step += (covariance[j * n + k] ?? 0) * (prior[k] ?? 0);
    for (let i = 0; i < shifts.length; i++) {
      step -= ((gain[j * shifts.length + i] ?? 0) * (shifts[i] ?? 0)) / (sigma[i] ?? 1);
    }
    return centre + Math.min(FARTHEST, Math.max(-FARTHEST, step));
  });
}

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
