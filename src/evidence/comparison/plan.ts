import { airFromHumidityRatio } from "../../air/index.ts";
import type { Composition, ParameterName, Running, Vehicle } from "../../vehicle/index.ts";
import {
  type Charged,
  type ComparableReading,
  type ComparableRun,
  comparedQuantities,
  type ComparedQuantity,
  type ConditionUncertainty,
  isDriving,
} from "./comparable.ts";
import { compareInEqualConditions } from "./compare.ts";
import { createLabelModel, readOf } from "./label-model.ts";
import { DETECTABLE } from "./verdict.ts";

/** Instruments of a plan: standard uncertainties of class and of a settled reading. */
export type PlannedInstruments = Readonly<
  Record<ComparedQuantity, { readonly uInstrument: number; readonly uRepeatability: number }>
>;

/** One condition in which every charge is to be run. */
export interface PlannedCondition {
  readonly kind: string;
  readonly conditions: ComparableRun["conditions"];
}

export interface PlanInput {
  readonly vehicle: Vehicle;
  readonly known: readonly ParameterName[];
  readonly label: Composition;
  /** How many products are compared one after the other. */
  readonly products: number;
  readonly conditions: readonly PlannedCondition[];
  /** How far the ambient of a product's runs is from the baseline's, K. */
  readonly apart: number;
  readonly instruments: PlannedInstruments;
  readonly u: ConditionUncertainty;
  /** Whether the temperature and humidity of the return air are to be read in every run. */
  readonly returnAirRead: boolean;
}

/** Smallest difference of each quantity and kind of run that a plan finds, by the number of repeats. */
export interface PlanRow {
  readonly kind: string;
  readonly quantity: ComparedQuantity;
  /** With one run of each charge in each condition; index 1 with two, and so on. */
  readonly smallestDetectable: readonly number[];
  /** What no number of runs goes below. */
  readonly floor: number;
}

export type PlanOutcome =
  | { readonly kind: "planned"; readonly rows: readonly PlanRow[] }
  | { readonly kind: "none"; readonly reason: "model-does-not-run" | "stopped" };

/** Repeats that are told. */
export const MOST_REPEATS = 8;
/** Repeats at which the uncertainty is worked out: what is common to all runs and what is each run's own follow. */
const [FEW, MANY] = [1, 4];
/**
 * How much less certain trials are than the plan's, whose vehicle stands in the middle of the priors, reads without
 * error and shows no drift: so that four of five of 150 hidden trials find what a plan says.
 */
const UNFORESEEN: Readonly<Record<ComparedQuantity, { parked: number; driving: number }>> = {
  vent: { parked: 1, driving: 1.15 },
  low: { parked: 1.1, driving: 1.1 },
  high: { parked: 1.05, driving: 1.2 },
};
/** Only widths are wanted, which need fewer vehicles than the ends of an interval. */
const DRAWS = 64;

/**
 * What a plan can find, by the machinery that will judge its runs: readings are those of the model, so that only
 * uncertainty is left.
 *
 * @param progress As of the comparison.
 */
export function planRuns(
  input: PlanInput,
  options: { readonly seed?: number; readonly progress?: (share: number) => boolean } = {},
): PlanOutcome {
  const few = uncertaintiesOf(input, FEW, options, 0);
  if (typeof few === "string") return { kind: "none", reason: few };
  const many = uncertaintiesOf(input, MANY, options, 0.5);
  if (typeof many === "string") return { kind: "none", reason: many };
  const rows = [...few].map(([key, one]) => {
    const [kind = "", quantity] = key.split("|");
    const u = many.get(key) ?? one;
    const own = Math.max(0, (one ** 2 - u ** 2) / (1 / FEW - 1 / MANY));
    const common = Math.max(0, one ** 2 - own / FEW);
    const detectable = (repeats: number): number => DETECTABLE * Math.sqrt(common + own / repeats);
    return {
      kind,
      quantity: comparedQuantities.find((known) => known === quantity) ?? "vent",
      smallestDetectable: Array.from({ length: MOST_REPEATS }, (_, k) => detectable(k + 1)),
      floor: DETECTABLE * Math.sqrt(common),
    };
  });
  return { kind: "planned", rows };
}

/** Standard uncertainty of the worst placed product's effect by kind and quantity. */
function uncertaintiesOf(
  input: PlanInput,
  repeats: number,
  { seed, progress }: Parameters<typeof planRuns>[1] & object,
  done: number,
): Map<string, number> | "model-does-not-run" | "stopped" {
  const runs = plannedRuns(input, repeats);
  const readings = readingsOf(input, runs);
  if (!readings) return "model-does-not-run";
  const { vehicle, known, label } = input;
  const margins = { vent: 1, low: 1, high: 1 };
  const found = compareInEqualConditions(
    { vehicle, known, label, runs: readings, margins },
    {
      draws: DRAWS,
      ...(seed !== undefined && { seed }),
      ...(progress && { progress: (share: number) => progress(done + share / 2) }),
    },
  );
  if (found.kind === "none") return found.reason === "stopped" ? "stopped" : "model-does-not-run";
  const drives = (kind: string): boolean =>
    input.conditions.some((one) => one.kind === kind && isDriving(one));
  const worst = new Map<string, number>();
  for (const { kind, quantity, equalConditions } of found.rows) {
    const key = `${kind}|${quantity}`;
    const unforeseen = UNFORESEEN[quantity][drives(kind) ? "driving" : "parked"];
    worst.set(key, Math.max(worst.get(key) ?? 0, unforeseen * equalConditions.u));
  }
  return worst;
}

function plannedRuns(input: PlanInput, repeats: number): ComparableRun[] {
  const charges: { readonly charged: Charged; readonly ambient: number }[] = [
    { charged: "before", ambient: 0 },
    ...Array.from({ length: input.products }, (_, k) => ({
      charged: { product: String(k) },
      // Products fall on warmer and on colder days by turns.
      ambient: k % 2 === 0 ? input.apart : -input.apart,
    })),
    { charged: "after", ambient: 0 },
  ];
  return charges.flatMap(({ charged, ambient }, moment) =>
    input.conditions.flatMap(({ kind, conditions }) =>
      Array.from({ length: repeats }, (_, k) => ({
        id: `${kind} ${moment} ${k}`,
        kind,
        charged,
        moment,
        conditions: { ...conditions, ambient: conditions.ambient + ambient },
        u: input.u,
        charge: input.vehicle.values.labelCharge,
        readings: [],
      })),
    ),
  );
}

/** The model's own readings, which no error has touched. */
function readingsOf(
  { vehicle, label, instruments, returnAirRead }: PlanInput,
  runs: readonly ComparableRun[],
): ComparableRun[] | undefined {
  const model = createLabelModel({ label, runs });
  const made = runs.flatMap((run, i) => {
    const state = model.run(i, vehicle);
    if (!state) return [];
    const readings = comparedQuantities.map((quantity): ComparableReading => ({
      quantity,
      form: "steady",
      value: readOf(state, quantity, "steady", 0),
      ...instruments[quantity],
      instrument: quantity,
    }));
    const conditions = returnAirRead ? withReturnAir(run.conditions, state) : run.conditions;
    return [{ ...run, conditions, readings }];
  });
  return made.length === runs.length ? made : undefined;
}

/** The conditions with the return air that the model has in them, as if it had been read. */
function withReturnAir(
  conditions: ComparableRun["conditions"],
  { returnAir: { T, humidityRatio } }: Running,
): ComparableRun["conditions"] {
  const air = airFromHumidityRatio(T, humidityRatio, conditions.pAir);
  const returnAir =
    air.kind === "air"
      ? ({ kind: "measured", T, humidity: Math.min(1, air.relativeHumidity) } as const)
      : ({ kind: "measured", T } as const);
  return { ...conditions, returnAir };
}
