import { createRandom } from "../../src/numerics/index.ts";
import {
  compareInEqualConditions,
  type ComparedQuantity,
  planRuns,
  type PlanRow,
} from "../../src/evidence/index.ts";
import { type Conditions, pureComposition, type Vehicle } from "../../src/vehicle/index.ts";
import {
  type Asked,
  conditionErrors,
  driftOf,
  instruments,
  makerOf,
  makeRun,
  pAir,
  type Shift,
  sumOf,
} from "./hidden-runs.ts";
import { hiddenVehicle } from "./hidden-vehicle.ts";

const kinds = ["idle", "road"] as const;
type Kind = (typeof kinds)[number];
const AMBIENT = 302;
const APART = 4;
const label = pureComposition("R134a");
const u = { ...conditionErrors, pullDown: 0.12 };

const conditionsOf = (kind: Kind): Conditions => ({
  ambient: AMBIENT,
  humidity: 0.5,
  pAir,
  speed: kind === "road" ? 20 : 0,
  engineSpeed: kind === "road" ? 27 : 12,
  blower: 1,
  recirculation: 1,
  returnAir: { kind: "pull-down", share: kind === "road" ? 0.9 : 0.45 },
  occupants: 1,
});

const planned = (quantity: ComparedQuantity) => {
  const [uInstrument, uRepeatability] = instruments[quantity];
  return { uInstrument, uRepeatability };
};

/** The plan of a tester who believes in a vehicle; the same for every hidden one of its kind. */
function planOf(vehicle: Vehicle): readonly PlanRow[] {
  const plan = planRuns({
    vehicle,
    known: [],
    label,
    products: 1,
    conditions: kinds.map((kind) => ({ kind, conditions: conditionsOf(kind) })),
    apart: APART,
    instruments: { vent: planned("vent"), low: planned("low"), high: planned("high") },
    u,
    returnAirRead: true,
  });
  if (plan.kind === "none") throw new Error(plan.reason);
  return plan.rows;
}

/** How often a true difference as large as a plan's smallest was found, by quantity and kind of run. */
export interface Detections {
  readonly found: ReadonlyMap<string, { readonly hits: number; readonly of: number }>;
  readonly redrawn: number;
}

export interface PlanSurvey {
  readonly count: number;
  readonly from: number;
  readonly repeats: number;
  /** Vehicles of one kind only: each kind needs a plan of its own. */
  readonly preset?: string;
  readonly draws?: number;
}

/**
 * Trials of hidden vehicles as planned, with so many runs of each charge: the product differs from the label
 * refrigerant by the smallest differences that the plan says it finds, up or down. Found is an interval without 0.
 */
export function surveyPlans({ count, from, repeats, preset, draws }: PlanSurvey): Detections {
  const plans = new Map<string, readonly PlanRow[]>();
  const found = new Map<string, { hits: number; of: number }>();
  let [redrawn, done] = [0, 0];
  for (let seed = from; done < count; seed++) {
    const random = createRandom(seed);
    const hidden = hiddenVehicle(random, 1);
    if (preset !== undefined && hidden.believed.preset !== preset) continue;
    const plan = plans.get(hidden.believed.title) ?? planOf(hidden.believed);
    plans.set(hidden.believed.title, plan);
    const sign = random() < 0.5 ? -1 : 1;
    const smallest = (kind: Kind, quantity: ComparedQuantity): number =>
      sign *
      (plan.find((row) => row.kind === kind && row.quantity === quantity)?.smallestDetectable[
        repeats - 1
      ] ?? NaN);
    const effects = (kind: Kind): Shift => ({
      vent: smallest(kind, "vent"),
      low: smallest(kind, "low"),
      high: smallest(kind, "high"),
    });
    const runs = runsOf(makerOf(hidden, random), effects, repeats);
    if (!runs) {
      redrawn++;
      continue;
    }
    done++;
    const margins = { vent: 1, low: 30e3, high: 100e3 };
    const answer = compareInEqualConditions(
      { vehicle: hidden.believed, known: [], label, runs, margins },
      draws === undefined ? {} : { draws },
    );
    if (answer.kind === "none") continue;
    for (const { quantity, kind, interval } of answer.rows) {
      const tally = found.get(`${quantity} ${kind}`) ?? { hits: 0, of: 0 };
      found.set(`${quantity} ${kind}`, tally);
      tally.of++;
      if (sign > 0 ? interval.from > 0 : interval.to < 0) tally.hits++;
    }
  }
  return { found, redrawn };
}

function runsOf(
  maker: ReturnType<typeof makerOf>,
  effects: (kind: Kind) => Shift,
  repeats: number,
) {
  const { values } = maker.hidden.believed;
  const fill = { composition: label, charge: values.labelCharge, air: 0 };
  const still = { vent: 0, low: 0, high: 0 };
  const { there, end } = driftOf(maker.random);
  const asked = kinds.flatMap((kind) =>
    Array.from({ length: repeats }, (): Asked[] => {
      const set = conditionsOf(kind);
      const away = { ...set, ambient: set.ambient + APART };
      const plain = { kind, fill, ambient: set.ambient, conditions: set };
      return [
        { ...plain, charged: "before", moment: 0, drift: still },
        {
          ...{ ...plain, ambient: away.ambient, conditions: away, moment: 1 },
          charged: { product: "B" },
          drift: sumOf(there, effects(kind)),
        },
        { ...plain, charged: "after", moment: 2, drift: end },
      ];
    }).flat(),
  );
  const made = asked.flatMap((one) => makeRun(maker, one, values.labelCharge) ?? []);
  return made.length === asked.length ? made.map(({ run }) => run) : undefined;
}

/** Lines for a person. */
export const plansText = ({ found, redrawn }: Detections): string =>
  [
    ...[...found].map(
      ([what, { hits, of }]) =>
        `${what}: found in ${hits} of ${of} (${((100 * hits) / of).toFixed(0)} %)`,
    ),
    `redrawn ${redrawn}`,
  ].join("\n");
