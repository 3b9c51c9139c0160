import { z } from "zod";
import { type Dimension, parseQuantity, siUnit, toSI, unitsOf } from "../units/index.ts";
import { issue, type Issue } from "./answer.ts";

/** What a field's text or number turned out to be. */
export type FieldOutcome<T> =
  | { readonly kind: "value"; readonly value: T }
  | { readonly kind: "unusable"; readonly issues: readonly Issue[] };

/** One named input: how it looks from outside, and how it becomes SI. */
export interface Field<T> {
  /** Shape and description, for JSON Schema; knows no meaning beyond types and lengths. */
  readonly schema: z.ZodType;
  readonly required: boolean;
  /**
   * @param raw  Already of the schema's shape.
   * @param name Name of the field, for its issue.
   * @param air  Local air, Pa, for gauge and vacuum units.
   */
  read(raw: unknown, name: string, air: number): FieldOutcome<T>;
}

export type Fields = Readonly<Record<string, Field<unknown>>>;

/** What `run` receives: a value for each field, `undefined` where an optional one was left out. */
export type ValuesOf<F extends Fields> = {
  readonly [K in keyof F]: F[K] extends Field<infer T> ? T : never;
};

/** Makes a field optional. */
export function optional<T>(field: Field<T>): Field<T | undefined> {
  const schema = field.schema.optional().describe(field.schema.description ?? "");
  return { ...field, schema, required: false };
}

const LONGEST_TEXT = 80;

export const unusable = (name: string, value: unknown, accepted: string) =>
  ({ kind: "unusable", issues: [issue(name, value, accepted)] }) as const;

const numberOrText = (description: string): z.ZodType =>
  z.union([z.number(), z.string().max(LONGEST_TEXT)]).describe(description);

/** Closed range of SI values that a field accepts. */
export interface Limits {
  readonly from: number;
  readonly to: number;
}

/** A pressure with what its unit counts from. */
export interface PressureValue {
  /** Absolute, Pa. */
  readonly p: number;
  /** Whether the local air entered: the text had a gauge or vacuum unit. */
  readonly fromAir: boolean;
}

const unitWords = (dimension: Dimension): string =>
  unitsOf(dimension)
    .map(({ label, name }) => (label === "" ? name : label))
    .join(", ");

function limited(name: string, raw: unknown, value: number, { from, to }: Limits, unit: string) {
  if (value >= from && value <= to) return undefined;
  return unusable(name, raw, `${from} to ${to} ${unit}, or the same in another unit`);
}

/** A quantity as SI number or as text with its unit: a number in SI. */
export function quantity(dimension: Dimension, says: string, limits: Limits): Field<number> {
  const unit = siUnit(dimension);
  return {
    schema: numberOrText(
      `${says}. A number in ${unit}, or a text with one of: ${unitWords(dimension)}.`,
    ),
    required: true,
    read(raw, name) {
      const parsed = typeof raw === "string" ? parseQuantity(raw, dimension) : undefined;
      if (parsed?.kind === "invalid") return unusable(name, raw, parsed.accepted);
      const value = parsed ? toSI(parsed.quantity) : Number(raw);
      return limited(name, raw, value, limits, unit) ?? { kind: "value", value };
    },
  };
}

/** A fraction as a number from 0 to 1 or as text with "%". */
export const fraction = (says: string): Field<number> =>
  quantity("ratio", says, { from: 0, to: 1 });

/** No shop's or laboratory's pressure lies outside; Pa. */
export const PRESSURES: Limits = { from: 0, to: 1e9 };

/** A pressure: a number is absolute Pa; a text may count from the local air. */
export function pressure(says: string): Field<PressureValue> {
  return {
    schema: numberOrText(
      `${says}. A number is absolute, in Pa; or a text with one of: ${unitWords("pressure")}.`,
    ),
    required: true,
    read(raw, name, air) {
      const parsed = typeof raw === "string" ? parseQuantity(raw, "pressure") : undefined;
      if (parsed?.kind === "invalid") return unusable(name, raw, parsed.accepted);
      const p = parsed ? toSI(parsed.quantity, air) : Number(raw);
      const unit = unitsOf("pressure").find(({ id }) => id === parsed?.quantity.unit);
      const fromAir = unit !== undefined && unit.reference !== "absolute";
      return (
        limited(name, raw, p, PRESSURES, "Pa absolute") ?? { kind: "value", value: { p, fromAir } }
      );
    },
  };
}

/**
 * A vacuum reading: a text in micron, mbar, inHg vac …; a number is Pa below the local air.
 *
 * "29.5 inHg" alone is refused: as a word it is a pressure near that of the air. A reading deeper than the air
 * allows is no misprint but a finding (gauge, altitude), so pressures below zero pass.
 */
export function vacuum(says: string): Field<PressureValue> {
  return {
    schema: numberOrText(
      `${says}. A number is Pa below the local air; or a text with one of: ${unitWords("pressure")}.`,
    ),
    required: true,
    read(raw, name, air) {
      if (typeof raw !== "string") {
        const below = Number(raw);
        const refused = limited(
          name,
          raw,
          below,
          { from: 0, to: 2 * air },
          "Pa below the local air",
        );
        return refused ?? { kind: "value", value: { p: air - below, fromAir: true } };
      }
      const hasUnit = /\p{L}/u.test(raw);
      const parsed = parseQuantity(raw, "pressure", hasUnit ? "inHg(vac)" : undefined);
      if (parsed.kind === "invalid") return unusable(name, raw, parsed.accepted);
      const p = toSI(parsed.quantity, air);
      const unit = unitsOf("pressure").find(({ id }) => id === parsed.quantity.unit);
      const limits = { from: -air, to: 2 * air };
      const fromAir = unit !== undefined && unit.reference !== "absolute";
      return (
        limited(name, raw, p, limits, "Pa absolute") ?? { kind: "value", value: { p, fromAir } }
      );
    },
  };
}

/** One of some words. */
export function choice<const T extends string>(says: string, words: readonly T[]): Field<T> {
  return {
    schema: z.enum(words).describe(says),
    required: true,
    read(raw, name) {
      const word = words.find((known) => known === raw);
      return word === undefined
        ? unusable(name, raw, words.join(" or "))
        : { kind: "value", value: word };
    },
  };
}

/** A whole number. */
export function count(says: string, { from, to }: Limits): Field<number> {
  return {
    schema: z.int().describe(`${says}. A whole number from ${from} to ${to}.`),
    required: true,
    read(raw, name) {
      const value = Number(raw);
      return value >= from && value <= to
        ? { kind: "value", value }
        : unusable(name, raw, `a whole number from ${from} to ${to}`);
    },
  };
}
