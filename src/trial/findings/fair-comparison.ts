import {
  type CalibrationSummary,
  compareInEqualConditions,
  type EqualConditions,
} from "../../evidence/index.ts";
import { modelOf } from "../expectation/vehicle-model.ts";
import { expectedFluid } from "../verdict/context.ts";
import type { RunView, TrialView } from "../view.ts";
import { comparableRuns } from "./comparable-runs.ts";
import { marginsOf, type PlannedMargin } from "./planned-margin.ts";

/** One product against the label refrigerant in one condition: as measured beside equal conditions. SI. */
export type FairRow = Omit<EqualConditions["rows"][number], "kind"> & {
  readonly condition: RunView["condition"];
};

export type FairDriftRow = Omit<EqualConditions["drift"][number], "kind"> & {
  readonly condition: RunView["condition"];
};

/** Products against the label refrigerant in equal conditions, or why that cannot be said. */
export type FairComparison =
  | {
      readonly kind: "compared";
      readonly rows: readonly FairRow[];
      /** Effects in the conditions of the product's runs, carried to standard conditions. */
      readonly standard: EqualConditions["standard"];
      readonly drift: readonly FairDriftRow[];
      readonly calibration: CalibrationSummary;
      readonly margin: PlannedMargin;
      /** Sentences: what the answer rests on beside the readings. */
      readonly assumptions: readonly string[];
    }
  | { readonly kind: "none"; readonly why: string };

export interface FairComparisonOptions {
  readonly seed?: number;
  /** Called with the share that is done; a `false` ends the work. */
  readonly progress?: (share: number) => boolean;
}

const none = (why: string): FairComparison => ({ kind: "none", why });

/** One answer a projection: the report and the board ask for the same. */
const memory = new WeakMap<TrialView, FairComparison>();

/**
 * Each product against the label refrigerant in equal conditions, through the model of this vehicle fitted to its
 * runs on the label refrigerant. What the model forecasts for a product is no part of it.
 *
 * @returns the finding, or what is missing. Deterministic for a seed; never throws for what a log may hold.
 * Cost: about a second for twenty runs; not part of `project` for that reason.
 * Source: docs/models/comparison.md
 */
export function fairComparisonOf(
  view: TrialView,
  options: FairComparisonOptions = {},
): FairComparison {
  const before = options.seed === undefined ? memory.get(view) : undefined;
  if (before) return before;
  const answer = computed(view, options);
  if (options.seed === undefined && !isStopped(answer)) memory.set(view, answer);
  return answer;
}

const STOPPED = "The computation was stopped.";
const isStopped = (answer: FairComparison): boolean =>
  answer.kind === "none" && answer.why === STOPPED;

const reasons = {
  "no-baseline":
    "Record a run on the label refrigerant with its outside temperature in Prove: it is what products are compared with.",
  "no-product": "Record a run of a product with its outside temperature.",
  "model-does-not-run":
    "The model of this vehicle finds no steady running in the conditions of these runs, so it cannot carry them.",
  stopped: STOPPED,
} as const;

function computed(view: TrialView, options: FairComparisonOptions): FairComparison {
  const { vehicle } = view;
  if (!vehicle) return none("Describe the vehicle first.");
  const choice = modelOf(vehicle);
  if (choice.kind === "none") return none(choice.why);
  const label = expectedFluid(view, {
    quantity: "vent-temperature",
    form: "steady",
    typed: { value: 0, unit: "K" },
    stage: "prove",
  });
  if (!label?.composition) {
    return none("The label refrigerant is none whose properties are known here.");
  }
  const { runs, assumptions, leftOut } = comparableRuns(view, vehicle);
  const margin = marginsOf(view);
  const outcome = compareInEqualConditions(
    {
      vehicle: choice.vehicle,
      known: choice.known,
      label: label.composition,
      runs,
      margins: margin.margins,
    },
    options,
  );
  if (outcome.kind === "none") {
    const left = leftOut.length > 0 ? ` Left out: ${leftOut.join("; ")}.` : "";
    return none(`${reasons[outcome.reason]}${left}`);
  }
  return {
    kind: "compared",
    rows: outcome.rows.map(({ kind, ...row }) => ({ ...row, condition: conditionOf(kind) })),
    standard: outcome.standard,
    drift: outcome.drift.map(({ kind, ...row }) => ({ ...row, condition: conditionOf(kind) })),
    calibration: outcome.calibration,
    margin,
    assumptions: [
      `Model of the vehicle: ${choice.vehicle.title}, fitted to ${outcome.calibration.readings} readings on the label refrigerant. Its parameters that no run can tell keep their whole plausible range.`,
      ...assumptions,
      ...leftOut.map((each) => `Left out: ${each}.`),
      ...outcome.lostRuns.map(
        (id) => `Left out: ${nameOf(view, id)}: the model does not run in its conditions.`,
      ),
      ...margin.said,
    ],
  };
}

const nameOf = (view: TrialView, id: string): string =>
  view.runs.find((run) => run.id === id)?.name ?? id;

const conditions: readonly RunView["condition"][] = [
  "parked-idle",
  "parked-raised-idle",
  "road-steady",
  "road-mixed",
];

function conditionOf(kind: string): RunView["condition"] {
  const condition = conditions.find((known) => known === kind);
  if (condition === undefined) throw new RangeError(`no condition is called ${kind}`);
  return condition;
}
