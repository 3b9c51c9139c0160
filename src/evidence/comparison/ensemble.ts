import { createRandom } from "../../numerics/index.ts";
import { type ErrorGroup, errorsGivenFit, proposalAround } from "../../inference/index.ts";
import type { Vehicle } from "../../vehicle/index.ts";
import { predictAll } from "./calibrate.ts";
import {
  type Candidate,
  type CandidateInput,
  drawCandidates,
  drawSurroundings,
} from "./candidates.ts";
import { type ComparedQuantity, isLabel } from "./comparable.ts";
import { leftOut } from "./errors.ts";
import { type LabelModel, readOf } from "./label-model.ts";
import { ventOffset, withLumps } from "./lumps.ts";
import { resampled, temperedWeights } from "./resample.ts";
import type { StandardCondition } from "./standard.ts";

/** What the label refrigerant would read in a standard condition, and whether no control holds the low side there. */
export interface StandardReading {
  readonly levels: Readonly<Record<ComparedQuantity, number>>;
  readonly isFree: boolean;
}

/** One vehicle that may have been tested, and what it would have read on the label refrigerant. */
export interface DrawnVehicle {
  /** In the conditions of every observation. */
  readonly predicted: Float64Array;
  /** What the model leaves out of each. */
  readonly sizes: Float64Array;
  /** In each standard condition; of some vehicles only. */
  readonly standard: readonly StandardReading[] | undefined;
  /** ln of its weight, but for the density of the fit's answer. */
  readonly logRatio: number;
  /** Vehicles with the same number share all but their lumps. */
  readonly parent: number;
}

/** Vehicles drawn around the fit; what each weighs is told by the readings. */
export interface Ensemble {
  readonly drawn: readonly DrawnVehicle[];
  /** Share of the draws in which the model did not run: not counted. */
  readonly lost: number;
}

export interface EnsembleInput extends CandidateInput {
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

/** Surroundings and candidates for each vehicle that is drawn: only the label refrigerant's runs are solved for them. */
const SURROUNDINGS = 2;
const CANDIDATES = 2;
/** One vehicle of so many is run in the standard conditions. */
const STANDARD = 3;

/**
 * Draws what the fit could not know: vehicles in proportion to how well the runs on the label refrigerant bear them
 * out, then their readings in all conditions.
 *
 * @returns undefined when it was stopped.
 */
export function drawEnsemble(from: EnsembleInput): Ensemble | undefined {
  const { calibration, groups, nominalSizes, draws, progress } = from;
  const { u, covariance, fit } = calibration;
  const random = createRandom(from.seed);
  const shares = sharesOfTime(from);
  const proposal = proposalAround(u, covariance, groups, nominalSizes, fit);
  const surroundings = drawSurroundings(from, SURROUNDINGS * draws, random, (share) =>
    progress(shares.surroundings * share),
  );
  if (!surroundings) return undefined;
  const candidates = drawCandidates(
    ...([from, surroundings, proposal, CANDIDATES * draws, random] as const),
    (share) => progress(shares.surroundings + shares.candidates * share),
  );
  if (!candidates) return undefined;
  const densities = candidates.map((each) => densityOf(from, each));
  const weights = temperedWeights(
    candidates.map(({ logRatio }, k) => logRatio + (densities[k] ?? 0)),
  );
  const times = new Map<number, number>();
  for (const place of resampled(weights, draws, random())) {
    times.set(place, (times.get(place) ?? 0) + 1);
  }
  const before = shares.surroundings + shares.candidates;
  const drawn: DrawnVehicle[] = [];
  let kept = 0;
  for (const [k, [place, count]] of [...times].entries()) {
    if (!progress(before + ((1 - before) * k) / times.size)) return undefined;
    const candidate = candidates[place];
    const one = candidate && vehicleOf(from, candidate, k % STANDARD === 0);
    if (!one) continue;
    kept += count;
    drawn.push({ ...one, logRatio: Math.log(count) - (densities[place] ?? 0) });
  }
  const ran = surroundings.length * candidates.length * kept;
  return { drawn, lost: 1 - ran / (SURROUNDINGS * CANDIDATES * draws ** 3) };
}

/** ln density of the fit's answer, if a candidate is the vehicle. */
function densityOf(
  { calibration: { fit }, groups, nominalSizes, observed }: EnsembleInput,
  { predicted, sizes }: Candidate,
): number {
  const all = nominalSizes.slice();
  const misfit = fit.data.map((place, i) => {
    all[place] = sizes[i] ?? 0;
    return (observed[place]?.value ?? 0) - (predicted[i] ?? 0);
  });
  return errorsGivenFit(groups, all, fit, misfit).logDensity;
}

/** A return-air loop takes some solves more than a run with return air that was read. */
const LOOP = 5;

/** Of the whole time, by solves. */
function sharesOfTime({ input, standard }: EnsembleInput) {
  const baseline = input.runs.filter(isLabel).length;
  const surroundings = SURROUNDINGS * baseline;
  const candidates = CANDIDATES * baseline;
  const products = input.runs.length - baseline + (LOOP * standard.length) / STANDARD;
  const all = surroundings + candidates + products;
  return { surroundings: surroundings / all, candidates: candidates / all };
}

/** Solves the runs of products too, and some vehicles in the standard conditions. */
function vehicleOf(
  from: EnsembleInput,
  { surroundings: { base, conditions }, u, parent, ...baseline }: Candidate,
  isCarried: boolean,
): Omit<DrawnVehicle, "logRatio"> | undefined {
  const { observed, model, calibration } = from;
  const vehicle = withLumps(base, u);
  const predicted = new Float64Array(observed.length);
  const sizes = new Float64Array(observed.length);
  const { data } = calibration.fit;
  data.forEach((place, i) => {
    predicted[place] = baseline.predicted[i] ?? 0;
    sizes[place] = baseline.sizes[i] ?? 0;
  });
  const rest = observed.flatMap((_, place) => (data.includes(place) ? [] : [place]));
  const others = rest.flatMap((place) => observed[place] ?? []);
  const found = new Float64Array(rest.length);
  const left = new Float64Array(rest.length);
  const running = (run: number) => model.run(run, vehicle, conditions[run]);
  if (!predictAll(others, running, ventOffset(u), found, left)) return undefined;
  rest.forEach((place, i) => {
    predicted[place] = found[i] ?? 0;
    sizes[place] = left[i] ?? 0;
  });
  const standard = isCarried ? standardReadings(from, vehicle, u) : undefined;
  return { predicted, sizes, standard, parent };
}

/** @returns undefined where the vehicle does not run in one of the standard conditions. */
function standardReadings(
  { standard, standardModel }: EnsembleInput,
  vehicle: Vehicle,
  u: Float64Array,
): StandardReading[] | undefined {
  const readings = [...standard.keys()].flatMap((k): StandardReading[] => {
    const state = standardModel.run(k, vehicle);
    if (!state) return [];
    const of = (quantity: ComparedQuantity) => readOf(state, quantity, "steady", ventOffset(u));
    const levels = { vent: of("vent"), low: of("low"), high: of("high") };
    return [{ levels, isFree: leftOut("low", state) > 0 }];
  });
  return readings.length === standard.length ? readings : undefined;
}
