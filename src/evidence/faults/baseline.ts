import { choleskyFactor, conditionedOn, secantMoments } from "../../inference/index.ts";
import type { Conditions, VehicleCase } from "../../vehicle/index.ts";
import { evidenceOf } from "./evidence.ts";
import {
  type Knowledge,
  type Move,
  moved,
  type Nuisance,
  nuisanceNames,
  ofTheDay,
  priorKnowledge,
  priorSpread,
} from "./nuisances.ts";
import { predict, type Reader } from "./predict.ts";
import {
  discrepancy,
  faultQuantities,
  type FaultReading,
  innerWidth,
  outer,
} from "./quantities.ts";

/** A run of the vehicle when it was known to be sound, on the label's refrigerant and charge. */
export interface BaselineRun {
  readonly conditions: Conditions;
  readonly readings: readonly FaultReading[];
}

/**
 * What is known of a vehicle after runs in which it was sound: the lumps' joint normal with the readings, given the
 * readings. The slopes are those over a standard deviation of each lump. What belongs to the day stays as wide as it
 * was. A run in which the model does not run is passed over.
 */
export function knowledgeOf(
  runs: readonly BaselineRun[],
  healthy: VehicleCase,
  reader: Reader,
): Knowledge {
  return runs.reduce(
    (known, run) => updated(known, run, { ...healthy, conditions: run.conditions }, reader),
    priorKnowledge(healthy),
  );
}

function updated(
  known: Knowledge,
  { readings }: BaselineRun,
  request: VehicleCase,
  reader: Reader,
): Knowledge {
  // A lump that matters there only (road air) joins with its prior.
  const met = new Set(known.directions.flatMap((move) => Object.keys(move)));
  const joined = priorSpread(request).filter(({ name }) => !met.has(name));
  const directions = [...known.directions, ...joined.map(({ name, sd }) => ({ [name]: sd }))];
  const centre = moved(request, known.mean);
  const at = { request: centre.request, ventOffset: centre.vent };
  const sound = predict(at, reader);
  if (!sound || readings.length === 0) return known;
  const lumps = nuisanceNames.length;
  const base = vectorOf(known.mean);
  const end = (move: Move, times: number): readonly number[] | undefined => {
    const { request: there, vent } = moved(at.request, move, times);
    const run = predict({ request: there, ventOffset: at.ventOffset + vent }, reader, sound.start);
    return run && [...vectorOf(move).map((by, i) => (base[i] ?? 0) + times * by), ...run.values];
  };
  const joint = secantMoments(
    [...base, ...sound.values],
    directions.map((move) => ({ up: end(move, 1), down: end(move, -1) })),
  );
  const { picks, y, noise } = evidenceOf(readings, request, reader);
  const wide = noise.map((value, i) => value + leftOut(i, picks, y));
  const places = picks.map((pick) => lumps + pick);
  const after = conditionedOn(joint, places, y, wide);
  return knowledgeFrom(after.mean, after.covariance, request);
}

/** The model's own error in a baseline is that of any run. */
function leftOut(at: number, picks: readonly number[], y: readonly number[]): number {
  const k = picks.length;
  const i = Math.floor(at / k);
  const quantity = faultQuantities[picks[i] ?? 0];
  if (i !== at % k || !quantity) return 0;
  return innerWidth(quantity, outer(quantity, y[i] ?? 0), discrepancy[quantity]) ** 2;
}

const vectorOf = (move: Move): readonly number[] => nuisanceNames.map((name) => move[name] ?? 0);

/** Directions of a joint covariance, whose first rows are the lumps'. */
function knowledgeFrom(
  mean: Float64Array,
  covariance: Float64Array,
  request: VehicleCase,
): Knowledge {
  const stride = mean.length;
  const spread = (i: number): number => covariance[i * stride + i] ?? 0;
  const kept = nuisanceNames
    .map((name, i) => ({ name, i }))
    .filter(({ name, i }) => !ofTheDay.includes(name) && spread(i) > 0);
  const n = kept.length;
  const part = Float64Array.from({ length: n * n }, (_, at) => {
    const [row, column] = [kept[Math.floor(at / n)], kept[at % n]];
    return covariance[(row?.i ?? 0) * stride + (column?.i ?? 0)] ?? 0;
  });
  const columns = choleskyFactor(n, part);
  const day = priorSpread(request).filter(({ name }) => ofTheDay.includes(name));
  const named = (values: (i: number) => number): Move =>
    Object.fromEntries(kept.map(({ name }, i): [Nuisance, number] => [name, values(i)]));
  return {
    mean: Object.fromEntries(kept.map(({ name, i }) => [name, mean[i] ?? 0])),
    directions: [
      ...(columns
        ? columns.map((column) => named((i) => column[i] ?? 0))
        : kept.map(({ name, i }) => ({ [name]: Math.sqrt(spread(i)) }))),
      ...day.map(({ name, sd }) => ({ [name]: sd })),
    ],
  };
}
