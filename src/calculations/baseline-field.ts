import { z } from "zod";
import type { FaultReading } from "../evidence/index.ts";
import type { Conditions } from "../vehicle/index.ts";
import { issue, type Issue } from "./answer.ts";
import { readingsField, readingsSchema } from "./diagnose-readings.ts";
import { type Field } from "./field.ts";
import { type ConditionValues, conditionsOf, vehicleFields } from "./vehicle-fields.ts";

const { ambient, humidity, returnAir, pulldown, speed, engineSpeed, blower, recirculation } =
  vehicleFields;
/** Conditions of a run. */
export const conditionFields = {
  ambient,
  humidity,
  returnAir,
  pulldown,
  speed,
  engineSpeed,
  blower,
  recirculation,
} as const;

/** More runs add time, hardly knowledge. */
const most = 6;

interface Run {
  readonly conditions: Conditions;
  readonly readings: readonly FaultReading[];
}

/** Runs of the vehicle when it was sound, each with its own conditions. */
export const baselineField: Field<readonly Run[]> = {
  schema: z
    .array(
      z.strictObject({
        ...Object.fromEntries(
          Object.entries(conditionFields).map(([name, { schema }]) => [name, schema]),
        ),
        readings: readingsSchema,
      }),
    )
    .max(most)
    .describe(
      `At most ${most} runs of this vehicle when it was known to be sound, on the label's refrigerant and charge: conditions as above and readings. They narrow what a sound vehicle may show.`,
    ),
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

function readRun(
  given: Readonly<Record<string, unknown>>,
  name: string,
  air: number,
): Run | { readonly issues: readonly Issue[] } {
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
  const conditions = conditionsOf(values as unknown as ConditionValues, { p: air });
  if ("issues" in conditions) return { issues: conditions.issues };
  return { conditions, readings: readings.value };
}
