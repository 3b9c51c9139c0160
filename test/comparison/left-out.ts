import {
  type ComparableRun,
  type ComparedQuantity,
  type ComparisonInput,
} from "../../src/evidence/index.ts";
import { calibrate } from "../../src/evidence/comparison/calibrate.ts";
import { type Observation, observationsOf } from "../../src/evidence/comparison/comparable.ts";
import type { Weights } from "../../src/evidence/comparison/contrast.ts";
import { contrastWeights, sidesOf } from "../../src/evidence/comparison/effects.ts";
import { likeness, type Place, placeOf } from "../../src/evidence/comparison/errors.ts";
import { createLabelModel, readOf } from "../../src/evidence/comparison/label-model.ts";
import { ventOffset, withLumps } from "../../src/evidence/comparison/lumps.ts";
import { createRandom } from "../../src/numerics/index.ts";
import type { Running } from "../../src/vehicle/index.ts";
import { rms } from "./coverage-survey.ts";
import { quantities } from "./hidden-runs.ts";
import { hiddenTrial } from "./hidden-trials.ts";
import { type HiddenVehicle, hiddenVehicle, truth } from "./hidden-vehicle.ts";

/** What a calibrated model leaves out of one kind of run. */
export interface LeftOut {
  /** Misses of the run that was not fitted. */
  readonly misses: number[];
  /** The same minus those of the fitted runs, weighed as in an effect. */
  readonly differences: number[];
  /** Standard deviation of such a difference for a discrepancy of 1. */
  readonly units: number[];
}

/** Every run on the label refrigerant, read without any error. */
function exactRuns(hidden: HiddenVehicle, { label, runs }: ComparisonInput) {
  return runs.flatMap((run): { readonly run: ComparableRun; readonly state: Running }[] => {
    const state = truth(hidden, run.conditions, { composition: label, charge: run.charge, air: 0 });
    if (!state) return [];
    const readings = run.readings.map((reading) => ({
      ...reading,
      value: readOf(state, reading.quantity, "steady", 0),
    }));
    return [{ run: { ...run, readings }, state }];
  });
}

/**
 * What the model's equations leave out of hidden vehicles' readings: all parameters outside of the lumps are known, the
 * lumps fitted to the baseline, the product's runs made on the label refrigerant. By quantity, kind of run and state
 * of the vehicle in the run that was not fitted.
 */
export function surveyLeftOut(count: number, from: number): Map<string, LeftOut> {
  const found = new Map<string, LeftOut>();
  for (let [seed, done] = [from, 0]; done < count; seed++) {
    const trial = hiddenTrial(seed, 1);
    if (!trial) continue;
    done++;
    const hidden = hiddenVehicle(createRandom(seed), 1);
    const exact = exactRuns(hidden, trial.input);
    if (exact.length < trial.input.runs.length) continue;
    const input = { ...trial.input, vehicle: hidden.drawn, runs: exact.map(({ run }) => run) };
    const fitted = fit(input);
    if (!fitted) continue;
    const states = exact.map(({ state }) => state);
    for (const kind of ["idle", "road"]) {
      for (const quantity of quantities) addLeftOut(found, fitted, states, { kind, quantity });
    }
  }
  return found;
}

/** A fitted trial: what each reading is missed by, and where each run stands. */
interface Fitted {
  readonly input: ComparisonInput;
  readonly observed: readonly Observation[];
  readonly missed: readonly number[];
  readonly places: readonly (Place | undefined)[];
}

function fit(input: ComparisonInput): Fitted | undefined {
  const observed = observationsOf(input.runs);
  const model = createLabelModel(input);
  const calibration = calibrate(input, observed, model);
  if (!calibration) return undefined;
  const { u } = calibration;
  const fitted = input.runs.map((_, i) => model.run(i, withLumps(input.vehicle, u)));
  const missed = observed.map(({ run, quantity, value }) => {
    const state = fitted[run];
    return state ? value - readOf(state, quantity, "steady", ventOffset(u)) : NaN;
  });
  const places = input.runs.map(({ conditions }, i) => {
    const state = fitted[i];
    return state && placeOf(conditions, state);
  });
  return { input, observed, missed, places };
}

/** Difference of the misses as an effect has it, and its standard deviation for a discrepancy of 1. */
function contrast({ observed, missed, places }: Fitted, weights: Weights): [number, number] {
  const placed = (at: number): Place | undefined => places[observed[at]?.run ?? -1];
  let [difference, variance] = [0, 0];
  for (const [a, wa] of weights) {
    difference += wa * (missed[a] ?? NaN);
    for (const [b, wb] of weights) {
      const [pa, pb] = [placed(a), placed(b)];
      variance += pa && pb ? wa * wb * likeness(pa, pb) : NaN;
    }
  }
  return [difference, Math.sqrt(Math.max(0, variance))];
}

function addLeftOut(
  found: Map<string, LeftOut>,
  fitted: Fitted,
  states: readonly Running[],
  { kind, quantity }: { readonly kind: string; readonly quantity: ComparedQuantity },
): void {
  const sides = sidesOf(fitted, kind, { quantity, form: "steady", product: "B" });
  const at = sides.product[0] ?? -1;
  const state = states[fitted.observed[at]?.run ?? -1];
  const [difference, unit] = contrast(fitted, contrastWeights(sides));
  if (!state || !Number.isFinite(difference + unit)) return;
  const how = quantity === "low" && state.duty < 1 ? "held" : state.regime;
  for (const key of [`${quantity} ${kind}`, `${quantity} ${kind} ${how}`]) {
    const mine = found.get(key) ?? { misses: [], differences: [], units: [] };
    found.set(key, mine);
    mine.misses.push(fitted.missed[at] ?? NaN);
    mine.differences.push(difference);
    mine.units.push(unit);
  }
}

/** The discrepancy whose differences would be as large as those found. */
export const discrepancyOf = ({ differences, units }: LeftOut): number =>
  rms(differences) / rms(units);

/** Lines for a person. */
export const leftOutText = (found: ReadonlyMap<string, LeftOut>): string =>
  [...found]
    .map(([what, left]) => {
      const [miss, size] = [rms(left.misses), discrepancyOf(left)].map((x) => x.toPrecision(3));
      return `${what}: ${left.misses.length} runs, missed by ${miss}, differences of a discrepancy of ${size}`;
    })
    .sort()
    .join("\n");
