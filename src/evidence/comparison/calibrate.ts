import { createLeastSquaresWork, type FitGain, fitLeastSquares } from "../../inference/index.ts";
import { isLabel, type ComparisonInput, type Observation } from "./comparable.ts";
import { errorSizes, leftOut } from "./errors.ts";
import { type LabelModel, readOf } from "./label-model.ts";
import { lumps, ventOffset, withLumps } from "./lumps.ts";
import type { Running } from "../../vehicle/index.ts";

/** The model fitted to the runs of the label refrigerant. */
export interface Calibration {
  /** Lumps in prior standard deviations. */
  readonly u: Float64Array;
  readonly covariance: Float64Array;
  /** How the fitted lumps answer to a change of a fitted observation. */
  readonly fit: FitGain;
  readonly chiSquare: number;
  readonly settled: boolean;
}

/** What one reading may differ from the model's by, the model's own error included. */
const sigmaOf = ({ quantity, uRepeatability, uInstrument }: Observation): number => {
  const { discrepancy, repeatability } = errorSizes[quantity];
  return Math.hypot(uRepeatability, uInstrument, repeatability, discrepancy);
};

/**
 * Predictions of observations for one vehicle, run by run.
 *
 * @param sizes Takes what the model leaves out of each.
 */
export function predictAll(
  observed: readonly Observation[],
  running: (run: number) => Running | undefined,
  offset: number,
  out: Float64Array,
  sizes?: Float64Array,
): boolean {
  let at = -1;
  let state: Running | undefined;
  for (const [i, { run, quantity, form }] of observed.entries()) {
    if (run !== at) {
      state = running(run);
      if (!state) return false;
      at = run;
    }
    if (!state) continue;
    out[i] = readOf(state, quantity, form, offset);
    if (sizes) sizes[i] = leftOut(quantity, state);
  }
  return true;
}

/**
 * Fits the eight lumps to the runs of the label refrigerant.
 *
 * @param observed Of all runs.
 * @returns undefined when the model with its prior's middle does not run in these conditions.
 */
export function calibrate(
  input: ComparisonInput,
  observed: readonly Observation[],
  model: LabelModel,
): Calibration | undefined {
  const data = observed.flatMap(({ run }, i) => {
    const of = input.runs[run];
    return of && isLabel(of) ? [i] : [];
  });
  const fitted = data.flatMap((i) => observed[i] ?? []);
  const sigma = fitted.map(sigmaOf);
  const predicted = new Float64Array(fitted.length);
  const problem = {
    unknowns: lumps.length,
    residuals: fitted.length,
    evaluate(u: Float64Array, r: Float64Array): boolean {
      const vehicle = withLumps(input.vehicle, u);
      if (!predictAll(fitted, (run) => model.run(run, vehicle), ventOffset(u), predicted)) {
        return false;
      }
      fitted.forEach(({ value }, i) => {
        r[i] = ((predicted[i] ?? 0) - value) / (sigma[i] ?? 1);
      });
      return true;
    },
  };
  const fit = fitLeastSquares(problem, createLeastSquaresWork(lumps.length, fitted.length));
  if (fit.kind === "failed") return undefined;
  const gain = gainOf(fit.covariance, fit.jacobian, sigma);
  const { u, covariance, chiSquare, settled } = fit;
  return { u, covariance, fit: { data, gain, unknowns: lumps.length }, chiSquare, settled };
}

/** P·Jᵀ/σ */
function gainOf(
  covariance: Float64Array,
  jacobian: Float64Array,
  sigma: readonly number[],
): Float64Array {
  const n = lumps.length;
  const m = sigma.length;
  const gain = new Float64Array(n * m);
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < m; i++) {
      let sum = 0;
      for (let k = 0; k < n; k++) {
        sum += (covariance[j * n + k] ?? 0) * (jacobian[i * n + k] ?? 0);
      }
      gain[j * m + i] = sum / (sigma[i] ?? 1);
    }
  }
  return gain;
}
