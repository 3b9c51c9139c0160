import { calibrate, type Calibration, predictAll } from "./calibrate.ts";
import { effectiveSamples, type ErrorGroup } from "../../inference/index.ts";
import {
  type ComparableRun,
  type ComparisonInput,
  isLabel,
  type Observation,
  observationsOf,
} from "./comparable.ts";
import { effectsOf } from "./effects.ts";
import { driftRows, driftSizes } from "./drift.ts";
import { drawEnsemble } from "./ensemble.ts";
import {
  type DriftSizes,
  errorGroups,
  type ErrorPlace,
  errorSizes,
  type Place,
  placeOf,
} from "./errors.ts";
import { createLabelModel, type LabelModel } from "./label-model.ts";
import { lumps, ventOffset, withLumps } from "./lumps.ts";
import { type Evaluated, shareBelow, weigh } from "./contrast.ts";
import { type StandardCondition, standardConditions } from "./standard.ts";
import { standardRows } from "./standard-rows.ts";
import type { CalibrationSummary, ComparisonOutcome } from "./view.ts";

export interface ComparisonOptions {
  readonly seed?: number;
  /** Vehicles that are drawn. */
  readonly draws?: number;
  /** Called with the share that is done; a `false` ends it. */
  readonly progress?: (share: number) => boolean;
}

const DRAWS = 128;
/** Shares of the time that are over when the fit is done and when the vehicles are drawn, as measured. */
const [FITTED, DRAWN] = [0.06, 0.86];
/** Share of draws in which the model may fail to run before nothing is said. */
const MOST_LOST = 0.75;

/**
 * Products against the label refrigerant in equal conditions.
 *
 * effect = y_B − [y_A + model(label, B) − model(label, A)], averaged over the baseline's runs of the same kind,
 * half of the weight before and half after. The model runs on the label refrigerant only.
 *
 * @returns rows in the order of the runs, or why there are none. Deterministic for a seed.
 * Cost: four solves a draw and run of the label refrigerant, one a draw and run of a product, some 0.1 ms each, after
 * the property pack.
 * Source: docs/models/comparison.md (Kennedy & O'Hagan 2001 for the discrepancy)
 */
export function compareInEqualConditions(
  asked: ComparisonInput,
  options: ComparisonOptions = {},
): ComparisonOutcome {
  const { progress = () => true, seed = 1, draws = DRAWS } = options;
  const none = (reason: (ComparisonOutcome & { kind: "none" })["reason"]): ComparisonOutcome => ({
    kind: "none",
    reason,
  });
  const input = { ...asked, runs: asked.runs.filter(({ readings }) => readings.length > 0) };
  if (!input.runs.some(isLabel)) return none("no-baseline");
  if (input.runs.every(isLabel)) return none("no-product");
  const model = createLabelModel(input);
  const [usable, lost] = runnable(input, model);
  if (!usable.runs.some(isLabel) || usable.runs.every(isLabel)) return none("model-does-not-run");
  const prepared = prepare(usable);
  if (!prepared) return none("model-does-not-run");
  const drawing = (share: number): boolean => progress(FITTED + (DRAWN - FITTED) * share);
  const ensemble = drawEnsemble({ ...prepared, draws, seed, progress: drawing });
  if (!ensemble) return none("stopped");
  if (ensemble.lost > MOST_LOST) return none("model-does-not-run");
  const evaluated = weigh({ ...prepared, ensemble });
  // Drift that shows beyond its own uncertainty widens what is allowed for it.
  const drift = driftSizes(evaluated);
  const groups = errorGroups(prepared.observed, prepared.places, drift);
  const widened = weigh({ ...prepared, ensemble, drift, groups });
  const effects = effectsOf(widened);
  const rows = effects.map(({ row }) => row);
  return {
    kind: "compared",
    rows,
    below: effects.map(({ contrast }) => shareBelow(contrast)),
    standard: standardRows(widened, rows),
    drift: driftRows(evaluated),
    calibration: summaryOf(prepared.calibration),
    effectiveDraws: effectiveDraws(widened),
    lostDraws: ensemble.lost,
    lostRuns: lost,
  };
}

/** The runs in which the uncalibrated model finds a steady state, and the ids of the others. */
function runnable(input: ComparisonInput, model: LabelModel): [ComparisonInput, string[]] {
  const ends = input.runs.map((run, i) => ({
    run,
    runs: model.run(i, input.vehicle) !== undefined,
  }));
  return [
    { ...input, runs: ends.filter(({ runs }) => runs).map(({ run }) => run) },
    ends.filter(({ runs }) => !runs).map(({ run }) => run.id),
  ];
}

/** 0 for the baseline, 1 for what came after, products between in their order. */
function timesOf(runs: readonly ComparableRun[]): number[] {
  const products = runs.filter((run) => !isLabel(run));
  const moments = [...new Set(products.map(({ moment }) => moment))].sort((a, b) => a - b);
  return runs.map(({ charged, moment }) => {
    if (charged === "before") return 0;
    if (charged === "after") return 1;
    return (moments.indexOf(moment) + 1) / (moments.length + 1);
  });
}

interface Prepared {
  readonly input: ComparisonInput;
  readonly observed: readonly Observation[];
  readonly calibration: Calibration;
  readonly model: LabelModel;
  readonly nominalSizes: Float64Array;
  readonly places: readonly ErrorPlace[];
  readonly groups: readonly ErrorGroup[];
  readonly standard: readonly StandardCondition[];
  readonly standardModel: LabelModel;
  readonly standardPlaces: readonly (Place | undefined)[];
  readonly drift: DriftSizes;
}

function prepare(input: ComparisonInput): Prepared | undefined {
  const observed = observationsOf(input.runs);
  const model = createLabelModel(input);
  const calibration = calibrate(input, observed, model);
  if (!calibration) return undefined;
  const { u } = calibration;
  const vehicle = withLumps(input.vehicle, u);
  const nominal = new Float64Array(observed.length);
  const nominalSizes = new Float64Array(observed.length);
  const running = (run: number) => model.run(run, vehicle);
  if (!predictAll(observed, running, ventOffset(u), nominal, nominalSizes)) return undefined;
  const times = timesOf(input.runs);
  const places = input.runs.flatMap((run, i): ErrorPlace[] => {
    const state = model.run(i, vehicle);
    if (!state) return [];
    return [{ place: placeOf(run.conditions, state), time: times[i] ?? 0 }];
  });
  if (places.length < input.runs.length) return undefined;
  const standard = standardConditions(input.runs[0]?.conditions.pAir ?? 101_325);
  const charge = input.vehicle.values.labelCharge;
  const standardModel = createLabelModel({
    label: input.label,
    runs: standard.map(({ conditions }) => ({ ...emptyRun, conditions, charge })),
  });
  const standardPlaces = standard.map(({ conditions }, k) => {
    const state = standardModel.run(k, vehicle);
    return state && placeOf(conditions, state);
  });
  const drift = {
    vent: errorSizes.vent.drift,
    low: errorSizes.low.drift,
    high: errorSizes.high.drift,
  };
  const groups = errorGroups(observed, places, drift);
  return {
    ...{ input, observed, calibration, model, nominalSizes, places },
    ...{ standard, standardModel, standardPlaces, drift, groups },
  };
}

const emptyRun = {
  id: "",
  kind: "",
  charged: "before",
  moment: 0,
  u: {
    ambient: 0,
    humidity: 0,
    speed: 0,
    engineSpeed: 0,
    returnT: 0,
    returnHumidity: 0,
    pullDown: 0,
  },
  readings: [],
} as const;

/** Vehicles that share all but their lumps count as one. */
function effectiveDraws({ ensemble, weights }: Evaluated): number {
  const shares = new Map<number, number>();
  ensemble.drawn.forEach(({ parent }, k) => {
    shares.set(parent, (shares.get(parent) ?? 0) + (weights[k] ?? 0));
  });
  return effectiveSamples([...shares.values()]);
}

function summaryOf({ u, covariance, fit, chiSquare, settled }: Calibration): CalibrationSummary {
  const rows = lumps.map(({ name, what, unit, form, sigma }, k) => {
    const at = (u[k] ?? 0) * sigma;
    const spread = Math.sqrt(covariance[k * lumps.length + k] ?? 0) * sigma;
    const factor = form === "factor";
    return {
      name,
      what,
      unit,
      form,
      prior: { value: factor ? 1 : 0, u: sigma },
      posterior: factor
        ? { value: Math.exp(at), u: Math.exp(at) * spread }
        : { value: at, u: spread },
    };
  });
  return { lumps: rows, readings: fit.data.length, chiSquare, settled };
}
