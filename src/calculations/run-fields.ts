import { z } from "zod";
import type { ReadRun } from "../evidence/index.ts";
import { type InvalidInput, invalidInput, issue, type Issue } from "./answer.ts";
import { readingsField, readingsSchema } from "./diagnose-readings.ts";
import { type Field, optional } from "./field.ts";
import { type ConditionValues, conditionsOf, vehicleFields } from "./vehicle-fields.ts";

const { ambient, humidity, returnAir, pulldown, speed, engineSpeed, blower, recirculation } =
  vehicleFields;
/** Conditions of a run. */
const conditionFields = {
  ambient,
  humidity,
  returnAir,
  pulldown,
  speed,
  engineSpeed,
  blower,
  recirculation,
} as const;
type ConditionName = keyof typeof conditionFields;
const conditionNames = Object.keys(conditionFields) as ConditionName[];

/** More runs add time, hardly knowledge. */
const most = 6;
const LONGEST_NAME = 80;

/** A run as it was given. */
export interface NamedRun extends ReadRun {
  readonly name?: string;
  readonly told: ConditionValues;
}

/** Some runs of a vehicle, each with its own conditions and readings. */
export function runsField(says: string): Field<readonly NamedRun[]> {
  return {
    schema: z
      .array(
        z.strictObject({
          name: z.string().max(LONGEST_NAME).optional().describe("What the run is called."),
          ...Object.fromEntries(
            Object.entries(conditionFields).map(([name, { schema }]) => [name, schema]),
          ),
          readings: readingsSchema,
        }),
      )
      .max(most)
      .describe(says),
    required: true,
    read(raw, name, air) {
      const issues: Issue[] = [];
      const runs = (raw as readonly Record<string, unknown>[]).flatMap((each, k) => {
        const run = readRun(each, `${name}[${k}]`, air);
        if ("conditions" in run) return [run];
        issues.push(...run.issues);
        return [];
      });
      return issues.length > 0 ? { kind: "unusable", issues } : { kind: "value", value: runs };
    },
  };
}

/** The runs to be judged: one with its conditions beside its readings, or several; and those of a baseline. */
export const runFields = {
  ...conditionFields,
  ambient: optional(ambient),
  humidity: optional(humidity),
  readings: optional(readingsField),
  runs: optional(
    runsField(
      `Several runs of the same vehicle, judged together, instead of \`readings\` and the conditions beside them: at most ${most}, each with an optional name, its conditions and its readings. Idle with road tells far more than either. Give a static pressure once.`,
    ),
  ),
  baseline: optional(
    runsField(
      `At most ${most} runs of this vehicle when it was known to be sound, on the label's refrigerant and charge: conditions as above and readings. They narrow what a sound vehicle may show.`,
    ),
  ),
} as const;

type RunValues = {
  readonly [K in keyof typeof runFields]: (typeof runFields)[K] extends Field<infer T> ? T : never;
};

/** The runs that were given in either form. */
export function runsOf(
  values: RunValues,
  air: { readonly p: number },
): readonly NamedRun[] | InvalidInput {
  return values.runs === undefined ? oneRun(values, air) : severalRuns(values, values.runs);
}

function oneRun(
  values: RunValues,
  air: { readonly p: number },
): readonly NamedRun[] | InvalidInput {
  const { readings } = values;
  const missing = (["ambient", "humidity", "readings"] as const).filter(
    (name) => values[name] === undefined,
  );
  if (missing.length > 0 || !readings) {
    return invalidInput(
      ...missing.map((name) => {
        const says = runFields[name].schema.description ?? "";
        return issue(name, undefined, `it is required, or several \`runs\`: ${says}`);
      }),
    );
  }
  // Both were found above.
  const told = values as ConditionValues;
  const conditions = conditionsOf(told, air);
  return "kind" in conditions ? conditions : [{ conditions, readings, told }];
}

function severalRuns(
  values: RunValues,
  runs: readonly NamedRun[],
): readonly NamedRun[] | InvalidInput {
  const beside = ([...conditionNames, "readings"] as const).filter(
    (name) => values[name] !== undefined,
  );
  if (beside.length > 0) {
    return invalidInput(
      ...beside.map((name) =>
        issue(name, "this field beside runs", "it belongs into each of `runs`"),
      ),
    );
  }
  return runs.length > 0
    ? runs
    : invalidInput(issue("runs", "an empty list", "at least one run, or `readings`"));
}

function readRun(
  given: Readonly<Record<string, unknown>>,
  name: string,
  air: number,
): NamedRun | { readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const values: Record<string, unknown> = {};
  for (const [field, of] of Object.entries<Field<unknown>>(conditionFields)) {
    if (given[field] === undefined) {
      if (of.required) issues.push(issue(`${name}.${field}`, undefined, "it is required"));
      continue;
    }
    const outcome = of.read(given[field], `${name}.${field}`, air);
    if (outcome.kind === "value") values[field] = outcome.value;
    else issues.push(...outcome.issues);
  }
  const readings = readingsField.read(given["readings"], `${name}.readings`, air);
  if (readings.kind === "unusable") issues.push(...readings.issues);
  if (issues.length > 0 || readings.kind === "unusable") return { issues };
  // Every field of a run's conditions was read above with the field of the same name.
  const told = values as unknown as ConditionValues;
  const conditions = conditionsOf(told, { p: air });
  if ("issues" in conditions) return { issues: conditions.issues };
  const called = given["name"];
  return {
    ...(typeof called === "string" && called !== "" && { name: called }),
    conditions,
    readings: readings.value,
    told,
  };
}
