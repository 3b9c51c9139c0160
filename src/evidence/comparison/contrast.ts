import {
  type ErrorGroup,
  type ErrorsGivenFit,
  errorsGivenFit,
  mixtureCdf,
  mixtureQuantile,
  type NormalMixture,
  weightedError,
} from "../../inference/index.ts";
import type { Calibration } from "./calibrate.ts";
import type { ComparisonInput, Observation } from "./comparable.ts";
import type { Ensemble } from "./ensemble.ts";
import type { DriftSizes, ErrorPlace, Place } from "./errors.ts";
import { temperedWeights } from "./resample.ts";
import type { StandardCondition } from "./standard.ts";
import type { Interval } from "./verdict.ts";
import type { Estimate } from "./view.ts";

/** What is known before the drawn vehicles are weighed. */
export interface Drawn {
  readonly input: ComparisonInput;
  readonly observed: readonly Observation[];
  readonly calibration: Calibration;
  readonly places: readonly ErrorPlace[];
  readonly standard: readonly StandardCondition[];
  /** Where each stands on the label refrigerant; undefined where the fitted vehicle does not run. */
  readonly standardPlaces: readonly (Place | undefined)[];
  readonly groups: readonly ErrorGroup[];
  readonly drift: DriftSizes;
  readonly ensemble: Ensemble;
}

/** Everything a contrast of readings is judged by. */
export interface Evaluated extends Drawn {
  /** Errors of the readings in each drawn vehicle, and what it weighs; weights sum to 1. */
  readonly errors: readonly ErrorsGivenFit[];
  readonly weights: Float64Array;
}

/** Weights of observations, by their place: what is averaged minus what is averaged. */
export type Weights = ReadonlyMap<number, number>;

/** A contrast in equal conditions with its distribution: a normal for each drawn vehicle. */
export interface Contrast {
  readonly raw: number;
  /** What the fit expects of the contrast's own errors; taken out of the estimate. */
  readonly expected: number;
  readonly estimate: Estimate;
  readonly mixture: NormalMixture;
}

/** Weighs the drawn vehicles: prior times the density of the fit's answer in each, over the density it was drawn from. */
export function weigh(drawn: Drawn): Evaluated {
  const { ensemble, groups, observed, calibration } = drawn;
  const { fit } = calibration;
  const errors = ensemble.drawn.map(({ predicted, sizes }) => {
    const misfit = fit.data.map((place) => (observed[place]?.value ?? 0) - (predicted[place] ?? 0));
    return errorsGivenFit(groups, sizes, fit, misfit);
  });
  const logs = ensemble.drawn.map(
    ({ logRatio }, k) => logRatio + (errors[k]?.logDensity ?? -Infinity),
  );
  return { ...drawn, errors, weights: temperedWeights(logs) };
}

const sumOf = (weights: Weights, of: (place: number) => number): number => {
  let sum = 0;
  for (const [place, weight] of weights) sum += weight * of(place);
  return sum;
};

/**
 * Σ w·(reading − model on the label refrigerant − error) with its distribution.
 *
 * @param extra Variance that is added: of what else may differ.
 */
export function contrastOf(evaluated: Evaluated, weights: Weights, extra = 0): Contrast {
  const { observed, ensemble, groups, errors, weights: shares } = evaluated;
  const raw = sumOf(weights, (place) => observed[place]?.value ?? 0);
  const centres = new Float64Array(errors.length);
  const sds = new Float64Array(errors.length);
  let expected = 0;
  errors.forEach((given, k) => {
    const predicted = ensemble.drawn[k]?.predicted;
    const { mean, variance } = weightedError(groups, weights, given);
    centres[k] = raw - sumOf(weights, (place) => predicted?.[place] ?? 0) - mean;
    sds[k] = Math.sqrt(Math.max(1e-12, variance + extra));
    expected += (shares[k] ?? 0) * mean;
  });
  const mixture = { centres, sds, weights: shares };
  return { raw, expected, estimate: estimateOf(mixture), mixture };
}

/** Mean and standard deviation of a mixture. */
function estimateOf({ centres, sds, weights }: Contrast["mixture"]): Estimate {
  const sum = (of: (k: number) => number): number => {
    let total = 0;
    for (let k = 0; k < weights.length; k++) total += (weights[k] ?? 0) * of(k);
    return total;
  };
  const value = sum((k) => centres[k] ?? 0);
  const u = Math.sqrt(sum((k) => (sds[k] ?? 0) ** 2 + ((centres[k] ?? 0) - value) ** 2));
  return { value, u };
}

export const intervalOf = ({ mixture }: Pick<Contrast, "mixture">): Interval => ({
  from: mixtureQuantile(mixture, 0.025),
  to: mixtureQuantile(mixture, 0.975),
});

export const shareBelow =
  ({ mixture }: Contrast) =>
  (difference: number): number =>
    mixtureCdf(mixture, difference);
