import type { LocalAir } from "../service/index.ts";
import { airOf } from "./air-fields.ts";
import { invalidInput, type InvalidInput, issue, type Issue } from "./answer.ts";
import type { Calculation } from "./definition.ts";
import { SEA_LEVEL_PRESSURE } from "../air/index.ts";

export type ReadInput =
  | {
      readonly kind: "values";
      readonly values: Readonly<Record<string, unknown>>;
      readonly air: LocalAir;
    }
  | InvalidInput;

const TOO_MANY = 40;

const isRecord = (raw: unknown): raw is Record<string, unknown> =>
  typeof raw === "object" && raw !== null && !Array.isArray(raw);

/** Fields that the calculation does not know, `__proto__` and symbols included. */
function strangers(calculation: Calculation, raw: object): readonly Issue[] {
  const known = Object.keys(calculation.fields);
  const keys = Reflect.ownKeys(raw).filter((key) => !known.includes(String(key)));
  return keys
    .slice(0, TOO_MANY)
    .map((key) => issue(String(key), "this field", `only the fields: ${known.join(", ")}`));
}

/** What the schema of a field accepts, in its own words: the description says type and unit. */
function shapeIssue(calculation: Calculation, name: string, value: unknown): Issue | undefined {
  const field = calculation.fields[name];
  if (!field || field.schema.safeParse(value).success) return undefined;
  const says = field.schema.description ?? "another type";
  return issue(name, value, value === undefined ? `it is required: ${says}` : says);
}

/**
 * Reads an input from outside: known fields, their types, their units, the local air first.
 *
 * @param raw Anything: parsed JSON, a form, an object made by a stranger.
 * @returns values in SI, or every issue found at the first step that found one. Never throws.
 */
export function readInput(calculation: Calculation, raw: unknown): ReadInput {
  if (!isRecord(raw)) {
    const fields = Object.keys(calculation.fields).join(", ");
    return invalidInput(issue("input", raw, `an object with the fields: ${fields}`));
  }
  const own = Object.fromEntries(
    Object.keys(calculation.fields)
      .filter((name) => Object.hasOwn(raw, name))
      .map((name) => [name, raw[name]]),
  );
  const issues = [
    ...strangers(calculation, raw),
    ...Object.keys(calculation.fields).flatMap(
      (name) => shapeIssue(calculation, name, own[name]) ?? [],
    ),
  ];
  return issues.length > 0 ? invalidInput(...issues) : readValues(calculation, own);
}

function readValues(calculation: Calculation, own: Record<string, unknown>): ReadInput {
  // A barometer in psig makes no sense; with vacuum as its own air it reads zero and is refused as too low.
  const place = readFields(calculation, own, ["altitude", "barometer"], SEA_LEVEL_PRESSURE);
  if (place.issues.length > 0) return invalidInput(...place.issues);
  const barometer = place.values["barometer"] as { p: number; fromAir: boolean } | undefined;
  if (barometer?.fromAir === true) {
    return invalidInput(
      issue("barometer", own["barometer"], "an absolute pressure, such as 29.92 inHg or 1013 hPa"),
    );
  }
  const altitude = place.values["altitude"] as number | undefined;
  const air = airOf({ altitude, barometer: barometer?.p }, own);
  if (air.kind === "invalid") return air;
  const rest = Object.keys(calculation.fields).filter((name) => !(name in place.values));
  const read = readFields(calculation, own, rest, air.p);
  if (read.issues.length > 0) return invalidInput(...read.issues);
  return { kind: "values", values: { ...place.values, ...read.values }, air };
}

function readFields(
  calculation: Calculation,
  own: Record<string, unknown>,
  names: readonly string[],
  air: number,
) {
  const issues: Issue[] = [];
  const values: Record<string, unknown> = {};
  for (const name of names) {
    const field = calculation.fields[name];
    values[name] = undefined;
    if (!field || own[name] === undefined) continue;
    const outcome = field.read(own[name], name, air);
    if (outcome.kind === "value") values[name] = outcome.value;
    else issues.push(...outcome.issues);
  }
  return { issues, values };
}
