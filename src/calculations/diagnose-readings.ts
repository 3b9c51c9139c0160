import { z } from "zod";
import { type FaultReading, meanOfSwing } from "../evidence/index.ts";
import type { Dimension } from "../units/index.ts";
import { issue, type Issue } from "./answer.ts";
import { type Field, type Limits, pressure, quantity } from "./field.ts";

const amount = z.union([z.number(), z.string().max(80)]);
const withU = z.union([amount, z.strictObject({ value: amount, u: amount.optional() })]);

/** Widest standard uncertainty that still says something, SI. */
interface ReadingSpec {
  readonly dimension: Exclude<Dimension, "pressure"> | "pressure";
  readonly uDimension: Dimension;
  readonly says: string;
  readonly limits: Limits;
  readonly most: number;
}

const hot = { from: 223.15, to: 473.15 };
const difference = { from: -60, to: 120 };
const T = (says: string): ReadingSpec => ({
  dimension: "temperature",
  uDimension: "temperature-difference",
  says,
  limits: hot,
  most: 30,
});
const p = (says: string): ReadingSpec => ({
  dimension: "pressure",
  uDimension: "pressure-difference",
  says,
  limits: { from: 5e3, to: 4.5e6 },
  most: 5e5,
});
const dT = (says: string): ReadingSpec => ({
  dimension: "temperature-difference",
  uDimension: "temperature-difference",
  says,
  limits: difference,
  most: 30,
});

const specs = {
  low: p("Low side, steady, or its mean"),
  lowest: p("Lowest low side of a cycling clutch; with `highest` instead of `low`"),
  highest: p("Highest low side of a cycling clutch"),
  high: p("High side, while a clutch is engaged"),
  vent: T("Air from the vents"),
  superheat: dT("Suction line at the evaporator above the label fluid's dew point at the low side"),
  subcooling: dT("Liquid line below the label fluid's bubble point at the high side"),
  discharge: T("Discharge line at the compressor"),
  liquidLine: T("Liquid line at the condenser"),
  duty: {
    dimension: "ratio",
    uDimension: "ratio",
    says: "Share of the time in which a cycling clutch is engaged",
    limits: { from: 0, to: 1 },
    most: 0.5,
  },
  static: p("Static pressure, engine off and everything at one temperature"),
  metal: T("Metal's temperature beside the static pressure; the outside air's if left out"),
} as const satisfies Record<string, ReadingSpec>;
type Name = keyof typeof specs;
const names = Object.keys(specs) as Name[];

export const readingsSchema = z
  .strictObject(
    Object.fromEntries(
      names.map((name) => [name, withU.optional().describe(`${specs[name].says}.`)]),
    ),
  )
  .describe(
    "What was read: each a value, or {value, u} with the standard uncertainty of its instrument. Pressures as numbers are absolute.",
  );

interface Read {
  readonly value: number;
  readonly u?: number;
}

/** The readings of one run. */
export const readingsField: Field<readonly FaultReading[]> = {
  schema: readingsSchema,
  required: true,
  read(raw, name, air) {
    const given = raw as Readonly<Record<string, unknown>>;
    const issues: Issue[] = [];
    const found: Partial<Record<Name, Read>> = {};
    for (const each of names) {
      if (given[each] === undefined) continue;
      const one = readOne(given[each], `${name}.${each}`, specs[each], air);
      if ("issues" in one) issues.push(...one.issues);
      else found[each] = one;
    }
    issues.push(...contradictions(found, name));
    return issues.length > 0
      ? { kind: "unusable", issues }
      : { kind: "value", value: listed(found) };
  },
};

function readOne(
  raw: unknown,
  name: string,
  { dimension, uDimension, says, limits, most }: ReadingSpec,
  air: number,
): Read | { readonly issues: readonly Issue[] } {
  const pair =
    typeof raw === "object" && raw !== null
      ? (raw as { value: unknown; u?: unknown })
      : { value: raw };
  const value = valueOf(pair.value, name, { dimension, says, limits }, air);
  if (typeof value !== "number") return { issues: value };
  if (pair.u === undefined) return { value };
  const read = quantity(uDimension, "Standard uncertainty", { from: 1e-6, to: most });
  const u = read.read(pair.u, `${name}.u`, air);
  return u.kind === "value" ? { value, u: u.value } : { issues: u.issues };
}

function valueOf(
  raw: unknown,
  name: string,
  { dimension, says, limits }: Pick<ReadingSpec, "dimension" | "says" | "limits">,
  air: number,
): number | readonly Issue[] {
  if (dimension !== "pressure") {
    const outcome = quantity(dimension, says, limits).read(raw, name, air);
    return outcome.kind === "value" ? outcome.value : outcome.issues;
  }
  const outcome = pressure(says).read(raw, name, air);
  if (outcome.kind === "unusable") return outcome.issues;
  const { p: absolute } = outcome.value;
  if (absolute >= limits.from && absolute <= limits.to) return absolute;
  return [
    issue(name, raw, `${limits.from} to ${limits.to} Pa absolute, or the same in another unit`),
  ];
}

function contradictions(found: Partial<Record<Name, Read>>, name: string): readonly Issue[] {
  const { low, lowest, highest } = found;
  const one = (what: string, accepted: string): Issue => issue(`${name}.low`, what, accepted);
  if (low && (lowest ?? highest)) return [one("low beside its ends", "low, or lowest and highest")];
  if ((lowest === undefined) !== (highest === undefined)) {
    return [one("one end of a cycling low side", "lowest and highest together")];
  }
  if (lowest && highest && lowest.value > highest.value) {
    return [one("lowest above highest", "lowest below highest")];
  }
  return [];
}

function listed(found: Partial<Record<Name, Read>>): readonly FaultReading[] {
  const { lowest, highest, metal, ...plain } = found;
  const readings: FaultReading[] = [];
  if (lowest && highest) readings.push(meanOfSwing(lowest, highest));
  for (const [quantityName, read] of Object.entries(plain) as [FaultReading["quantity"], Read][]) {
    const beside = quantityName === "static" && metal;
    readings.push({
      quantity: quantityName,
      ...read,
      ...(beside && { metal: metal.value, ...(metal.u !== undefined && { uMetal: metal.u }) }),
    });
  }
  return readings;
}
