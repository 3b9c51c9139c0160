import { choleskyFactor, conditionedOn, secantMoments } from "../../inference/index.ts";
import { evidenceOf } from "./evidence.ts";
import type { Kind } from "./hypotheses.ts";
import { centresOf, directionsOf, pairsOf, type System } from "./moments.ts";
import {
  type Knowledge,
  type Move,
  moved,
  type Nuisance,
  nuisanceNames,
  priorKnowledge,
} from "./nuisances.ts";
import type { Label } from "./predict.ts";
import {
  discrepancy,
  type FaultReading,
  innerWidth,
  outer,
  quantityAt,
  type ReadRun,
} from "./quantities.ts";

/**
 * What is known of a vehicle after runs in which it was sound: the lumps' joint normal with the readings, given the
 * readings. The slopes are those over a standard deviation of each lump. What belongs to the day stays as wide as it
 * was. A run in which the model does not run is passed over.
 */
export const knowledgeOf = (runs: readonly ReadRun[], kind: Kind, label: Label): Knowledge =>
  runs.reduce(
    (known, run) => updated(known, systemIn(run, kind, label, known), run.readings),
    priorKnowledge(kind),
  );

/** A sound vehicle in a run, as it is known, and its reader. */
export function systemIn(
  { conditions, readings }: ReadRun,
  kind: Kind,
  label: Label,
  known: Knowledge,
): System {
  const resting = readings.find(({ quantity }) => quantity === "static");
  const told = { request: { ...kind, conditions }, ventOffset: 0 };
  return {
    faulty: moved(told, known.mean),
    reader: { ...label, metal: resting?.metal ?? conditions.ambient },
  };
}

function updated(known: Knowledge, system: System, readings: readonly FaultReading[]): Knowledge {
  const centres = centresOf([system]);
  if (!centres || readings.length === 0) return known;
  const base = vectorOf(known.mean);
  const ends = pairsOf([system], centres, directionsOf([system], known));
  const joined = (values: readonly number[] | undefined, k: number, times: number) => {
    const move = known.directions[k] ?? {};
    return values && [...base.map((at, i) => at + times * (vectorOf(move)[i] ?? 0)), ...values];
  };
  const joint = secantMoments(
    [...base, ...centres.flatMap(({ values }) => values)],
    ends.map(({ up, down }, k) => ({ up: joined(up, k, 1), down: joined(down, k, -1) })),
  );
  const { picks, y, noise } = evidenceOf([{ system, readings }]);
  const wide = noise.map((value, at) => value + leftOut(at, picks, y));
  const places = picks.map((pick) => base.length + pick);
  const after = conditionedOn(joint, places, y, wide);
  return knowledgeFrom(after.mean, after.covariance);
}

/** The model's own error in a baseline is that of any run. */
function leftOut(at: number, picks: readonly number[], y: readonly number[]): number {
  const k = picks.length;
  const i = Math.floor(at / k);
  if (i !== at % k) return 0;
  const { quantity } = quantityAt(picks[i] ?? 0);
  return innerWidth(quantity, outer(quantity, y[i] ?? 0), discrepancy[quantity]) ** 2;
}

const vectorOf = (move: Move): readonly number[] => nuisanceNames.map((name) => move[name] ?? 0);

/** Directions of a joint covariance, whose first rows are the lumps'. */
function knowledgeFrom(mean: Float64Array, covariance: Float64Array): Knowledge {
  const stride = mean.length;
  const spread = (i: number): number => covariance[i * stride + i] ?? 0;
  const kept = nuisanceNames.map((name, i) => ({ name, i })).filter(({ i }) => spread(i) > 0);
  const n = kept.length;
  const part = Float64Array.from({ length: n * n }, (_, at) => {
    const [row, column] = [kept[Math.floor(at / n)], kept[at % n]];
    return covariance[(row?.i ?? 0) * stride + (column?.i ?? 0)] ?? 0;
  });
  const columns = choleskyFactor(n, part);
  const named = (values: (i: number) => number): Move =>
    Object.fromEntries(kept.map(({ name }, i): [Nuisance, number] => [name, values(i)]));
  return {
    mean: Object.fromEntries(kept.map(({ name, i }) => [name, mean[i] ?? 0])),
    directions: columns
      ? columns.map((column) => named((i) => column[i] ?? 0))
      : kept.map(({ name, i }) => ({ [name]: Math.sqrt(spread(i)) })),
  };
}
