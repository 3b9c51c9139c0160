import { blendInfo, isFluidId } from "../../../fluids/index.ts";
import { type Gaussian, secantMoments } from "../../../inference/index.ts";
import {
  type Composition,
  type Conditions,
  createRunWork,
  pureComposition,
  type Running,
  runVehicle,
  type RunWork,
  saturationOf,
  type Start,
  type VehicleCase,
} from "../../../vehicle/index.ts";
import {
  daySpread,
  inner,
  innerWidth,
  type Knowledge,
  knowledgeOf,
  type Move,
  moved,
  outer,
  priorKnowledge,
  touches,
  usualUncertainty,
} from "../../faults/index.ts";
import type { RunningEvidence } from "../evidence.ts";

/** What a run is compared by, in the order of its three places in every vector. */
const quantities = ["low", "high", "vent"] as const;
type Quantity = (typeof quantities)[number];
const MOST_PLACES = quantities.length;

const PSI = 6894.757293168;
/**
 * What the model leaves out of a reading on a fluid that the vehicle was not made for, standard deviations in SI
 * (docs/models/contents.md: trials of the model against variants of itself, rounded up).
 */
const DISCREPANCY: Readonly<Record<Quantity, number>> = { low: 2 * PSI, high: 6 * PSI, vent: 1 };
/** Times that, where no run on the label refrigerant shows how this vehicle differs beside its lumps (a choice, no source). */
const UNCALIBRATED = 1.5;
/** Vent of a starved or flooded system, K: hidden volumes decide it. */
const VENT_OFF_BALANCE = 1.8;
/** Of the head of a blend with glide: nothing slows its condensation in the model, nothing shifts its circulation. */
const ZEOTROPE_HEAD = 0.03;
/** Part of that variance that all runs on the fluid share (a choice, no source). */
const SHARED = 0.7;
/** The same of an instrument's (common practice, no source). */
const SHARED_INSTRUMENT = 0.8;

/** What the readings of all runs would be on a content, and what they were. */
export interface Forecaster {
  /** Readings as the statistics see them: pressure of the low side, ln of the high side, vent. */
  readonly y: Float64Array;
  /** Their distribution on a content, instruments included; undefined where the model does not run steadily. */
  readonly forecast: (content: Composition) => Gaussian | undefined;
}

interface Place {
  readonly run: number;
  readonly quantity: Quantity;
  readonly value: number;
  readonly u: number;
}

/** A solved run. */
interface Solved {
  readonly values: readonly number[];
  readonly balanced: boolean;
  readonly start: Start;
}

/** The vehicle's model on any content, its lumps known as far as the runs on the label refrigerant tell. */
export function forecasterOf(evidence: RunningEvidence): Forecaster | undefined {
  const { runs, vehicle, charge } = evidence;
  const places = placesOf(evidence);
  const [first] = runs;
  if (!first || places.length === 0) return undefined;
  const work = createRunWork();
  const known = lumpsOf(evidence, first.conditions, work);
  const wider = evidence.baseline.length > 0 ? 1 : UNCALIBRATED;
  const solve = (request: VehicleCase, vent: number, start?: Start): Solved | undefined => {
    const run = runVehicle(request, work, start);
    return run.kind === "running" ? solvedOf(run, vent) : undefined;
  };
  const forecast = (composition: Composition): Gaussian | undefined => {
    const cases = runs.map(({ conditions }): VehicleCase => ({
      vehicle,
      conditions,
      fill: { composition, charge, air: 0 },
    }));
    const centred = cases.map((request) => shifted(request, known.mean));
    const centre = centred.map(({ request, vent }) => solve(request, vent));
    const values = centre.flatMap((run) => run?.values ?? []);
    if (values.length < MOST_PLACES * runs.length) return undefined;
    /** Values with some runs changed, the others as they are. */
    const end = (change: (request: VehicleCase, run: number) => Shifted) => {
      const all = centred.map((at, k) => {
        const { request, vent } = change(at.request, k);
        return request === at.request && vent === 0
          ? centre[k]
          : solve(request, at.vent + vent, centre[k]?.start);
      });
      return all.every((run) => run !== undefined) ? all.flatMap((run) => run.values) : undefined;
    };
    const pairs = [
      ...known.directions.map((move) => both((times) => end((at) => shifted(at, move, times)))),
      ...daysOf(cases).map(({ run, move }) =>
        both((times) => end((at, k) => (k === run ? shifted(at, move, times) : still(at)))),
      ),
      both((times) => end((at) => charged(at, charge + times * evidence.uCharge))),
    ];
    const glides = composition.ids.length > 1;
    return readAt(
      secantMoments(values, pairs),
      places,
      widthsOf(centre, values, glides).map((width) => wider * width),
    );
  };
  return {
    y: Float64Array.from(places, ({ quantity, value }) => inner(quantity, value)),
    forecast,
  };
}

const both = <T>(end: (times: number) => T): { readonly up: T; readonly down: T } => ({
  up: end(1),
  down: end(-1),
});
interface Shifted {
  readonly request: VehicleCase;
  readonly vent: number;
}
const still = (request: VehicleCase): Shifted => ({ request, vent: 0 });
function shifted(request: VehicleCase, move: Move, times = 1): Shifted {
  if (!touches(move, request)) return still(request);
  const to = moved({ request, ventOffset: 0 }, move, times);
  return { request: to.request, vent: to.ventOffset };
}
const charged = (request: VehicleCase, charge: number) =>
  still({ ...request, fill: { ...request.fill, charge: Math.max(1e-3, charge) } });

const placesOf = ({ runs }: RunningEvidence): Place[] =>
  runs.flatMap(({ readings }, run) =>
    quantities.flatMap((quantity): Place[] => {
      const reading = readings.find((one) => one.quantity === quantity);
      if (!reading) return [];
      return [{ run, quantity, value: reading.value, u: reading.u ?? usualUncertainty[quantity] }];
    }),
  );

/** Lumps of the vehicle; what belongs to a day is added run by run. */
function lumpsOf(
  { vehicle, label, baseline }: RunningEvidence,
  conditions: Conditions,
  work: RunWork,
): Knowledge {
  const composition = compositionOf(label);
  const fill = { composition, charge: vehicle.values.labelCharge, air: 0 };
  const healthy: VehicleCase = { vehicle, conditions, fill };
  const saturation = baseline.length > 0 ? saturationOf(composition) : undefined;
  return saturation?.kind === "saturation"
    ? knowledgeOf(baseline, healthy, { label: saturation, work })
    : priorKnowledge(healthy);
}

/** @throws RangeError for a name that is none: the caller's bug. */
function compositionOf(name: string): Composition {
  if (isFluidId(name)) return pureComposition(name);
  const shares = blendInfo(name)?.shares;
  if (!shares) throw new RangeError(`${name} is neither a fluid nor a named blend`);
  return { ids: shares.map(({ fluid }) => fluid), fractions: shares.map(({ mass }) => mass) };
}

/** What belongs to the day of each run. */
const daysOf = (cases: readonly VehicleCase[]) =>
  cases.flatMap((request, run) =>
    daySpread(request).map(({ name, sd }) => ({ run, move: { [name]: sd } })),
  );

const solvedOf = (run: Running, vent: number): Solved => ({
  values: [run.low, inner("high", run.highOn ?? run.high), run.vent + vent],
  balanced: run.regime === "balanced",
  start: run.start,
});

/** What the model leaves out of each value. */
const widthsOf = (
  centre: readonly (Solved | undefined)[],
  values: readonly number[],
  glides: boolean,
): readonly number[] =>
  centre.flatMap((run, k) =>
    quantities.map((quantity, q) => {
      if (quantity === "vent" && !run?.balanced) return VENT_OFF_BALANCE;
      const value = outer(quantity, values[k * MOST_PLACES + q] ?? 0);
      const width = innerWidth(quantity, value, DISCREPANCY[quantity]);
      return quantity === "high" && glides ? Math.hypot(width, ZEOTROPE_HEAD) : width;
    }),
  );

/** The distribution of what was read: the model's, what it leaves out, and the instruments. */
function readAt(
  { mean, covariance }: Gaussian,
  places: readonly Place[],
  widths: readonly number[],
): Gaussian {
  const n = mean.length;
  const k = places.length;
  const at = places.map(({ run, quantity }) => run * MOST_PLACES + quantities.indexOf(quantity));
  const noise = places.map(({ quantity, value, u }) => innerWidth(quantity, value, u));
  const sum = new Float64Array(k * k);
  places.forEach((a, i) => {
    places.forEach((b, j) => {
      const [row, column] = [at[i] ?? 0, at[j] ?? 0];
      let together = covariance[row * n + column] ?? 0;
      if (a.quantity === b.quantity) {
        const [model, read] = i === j ? [1, 1] : [SHARED, SHARED_INSTRUMENT];
        together += model * (widths[row] ?? 0) * (widths[column] ?? 0);
        together += read * (noise[i] ?? 0) * (noise[j] ?? 0);
      }
      sum[i * k + j] = together;
    });
  });
  return { mean: Float64Array.from(at, (row) => mean[row] ?? 0), covariance: sum };
}
