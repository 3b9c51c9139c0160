import type {
  Charged,
  ComparableReading,
  ComparableRun,
  ComparedQuantity,
  ConditionUncertainty,
} from "../../evidence/index.ts";
import { best, isBaseline } from "../comparison.ts";
import { type ReadingForm, readingForms, type ReadingQuantity } from "../events.ts";
import { conditionsOf, known } from "../expectation/conditions.ts";
import { chargeAt } from "../expectation/expectation.ts";
import type { ReadingInContext } from "../verdict/view.ts";
import type { RunView, TrialView, VehicleView } from "../view.ts";

export const comparedReadings: Readonly<Record<ComparedQuantity, ReadingQuantity>> = {
  vent: "vent-temperature",
  low: "low-side",
  high: "high-side",
};
const compared = Object.keys(comparedReadings) as ComparedQuantity[];

/** Of instruments that nobody named: a thermocouple of class 2, gauges of class 1.6 (common practice, no source). */
const unnamed: Readonly<Record<ComparedQuantity, number>> = { vent: 0.6, low: 10e3, high: 32e3 };

/** Standard uncertainties of conditions that were read, and of stand-ins for those that were not (judged). */
const read = { ambient: 0.5, humidity: 0.04, speed: 0.5, engineSpeed: 0.5, T: 0.5 } as const;
const assumed = { humidity: 0.15, speed: 3, idle: 1, road: 4, pullDown: 0.12 } as const;

export interface ComparableRuns {
  readonly runs: readonly ComparableRun[];
  /** Sentences: what had to be assumed, and runs left out. */
  readonly assumptions: readonly string[];
  readonly leftOut: readonly string[];
}

/** Runs of the label refrigerant and of products as the evidence wants them. */
export function comparableRuns(view: TrialView, vehicle: VehicleView): ComparableRuns {
  const runs: ComparableRun[] = [];
  const leftOut: string[] = [];
  const stands = new Map<string, string[]>();
  for (const run of view.runs) {
    const charged = chargedOf(run, vehicle.labelRefrigerant);
    if (charged === undefined) continue;
    const made = comparable(view, run, charged, vehicle);
    if (typeof made === "string") {
      leftOut.push(`${run.name}: ${made}`);
      continue;
    }
    runs.push(made.run);
    for (const words of made.assumed) stands.set(words, [...(stands.get(words) ?? []), run.name]);
  }
  const assumptions = [...stands].map(
    ([words, names]) => `Not read, so assumed: ${words} (${whichOf(names, view.runs)}).`,
  );
  return { runs, assumptions, leftOut };
}

const FEW = 2;
const conditionWords: Readonly<Record<RunView["condition"], string>> = {
  "parked-idle": "parked at idle",
  "parked-raised-idle": "parked at raised idle",
  "road-steady": "on the road at steady speed",
  "road-mixed": "on the road in mixed driving",
};

/** The runs of these names, as short as it can be told: all, all of a condition, or each by its name. */
function whichOf(names: readonly string[], all: readonly RunView[]): string {
  const named = all.filter(({ name }) => names.includes(name));
  const conditions = new Set(named.map(({ condition }) => condition));
  const alike = all.filter(({ condition }) => conditions.has(condition));
  if (names.length <= FEW || named.length !== alike.length) return names.join("; ");
  const [one] = conditions;
  return conditions.size === 1 && one !== undefined && alike.length < all.length
    ? `all ${alike.length} runs ${conditionWords[one]}`
    : `all ${alike.length} runs`;
}

function chargedOf(run: RunView, label: string): Charged | undefined {
  if (run.charged.kind === "product") return { product: run.charged.product };
  if (!isBaseline(run, label)) return undefined;
  return run.stage === "restore" ? "after" : "before";
}

function comparable(
  view: TrialView,
  run: RunView,
  charged: Charged,
  vehicle: VehicleView,
): { readonly run: ComparableRun; readonly assumed: readonly string[] } | string {
  const context = contextOf(run);
  const conditions = conditionsOf(view, context);
  if (!conditions) return "the outside temperature was not read";
  const readings = readingsOf(run);
  if (readings.length === 0) return "it has no vent temperature and no pressure";
  const weighed = typeof charged === "string" ? chargeAt(view, context) : vehicle.labelCharge;
  const nameless = readings.some(({ instrument }) => instrument.startsWith("unnamed"));
  return {
    run: {
      id: run.id,
      kind: run.condition,
      charged,
      moment: Date.parse(run.when),
      conditions: conditions.conditions,
      u: uncertainties(view, context, run),
      charge: weighed ?? vehicle.labelCharge,
      readings,
    },
    assumed: [
      ...conditions.assumed,
      ...(nameless ? ["the class of instruments that nobody named"] : []),
      ...(weighed === undefined ? ["the label charge, because nothing was weighed in"] : []),
    ],
  };
}

/** The run's vent, as if it were being read: its neighbours are looked up by run, stage and time. */
const contextOf = (run: RunView): ReadingInContext => ({
  quantity: "vent-temperature",
  form: "steady",
  typed: { value: 0, unit: "K" },
  stage: run.stage,
  run: run.id,
  when: run.when,
  ...(run.round !== undefined && { round: run.round }),
});

const readingsOf = (run: RunView): ComparableReading[] =>
  compared.flatMap((quantity) =>
    readingForms.flatMap((form: ReadingForm): ComparableReading[] => {
      const name = comparedReadings[quantity];
      const figure = best(run.values.filter((v) => v.quantity === name && v.form === form));
      if (!figure) return [];
      const { value, uRepeatability, uInstrument, instrument } = figure;
      return [
        {
          quantity,
          form,
          value,
          uRepeatability,
          uInstrument: uInstrument > 0 ? uInstrument : unnamed[quantity],
          instrument: instrument ?? `unnamed ${quantity}`,
        },
      ];
    }),
  );

function uncertainties(
  view: TrialView,
  context: ReadingInContext,
  { condition }: RunView,
): ConditionUncertainty {
  const has = (quantity: ReadingQuantity): boolean => known(view, context, quantity) !== undefined;
  const road = condition.startsWith("road");
  return {
    ambient: read.ambient,
    humidity: has("outside-humidity") ? read.humidity : assumed.humidity,
    speed: has("vehicle-speed") ? read.speed : assumed.speed,
    engineSpeed: has("engine-speed") ? read.engineSpeed : road ? assumed.road : assumed.idle,
    returnT: read.T,
    returnHumidity: read.humidity,
    pullDown: assumed.pullDown,
  };
}
