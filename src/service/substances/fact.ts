import { z } from "zod";

/**
 * How far a fact may be trusted: read in its source or an open copy of the table; from memory and agreeing with
 * arithmetic or a second text; from memory only; disputed, which is shown but enters no computation.
 */
export const trusts = ["published", "cross-checked", "memory", "shaky"] as const;
export type Trust = (typeof trusts)[number];

/** A figure, or all that is known of it: "<1" is from 0 to 1. */
export type Amount = number | Interval;

export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** A value with its unit and where it comes from, in full. */
export interface Fact<Value = Amount> {
  readonly value: Value;
  readonly unit: string;
  readonly source: string;
  readonly trust: Trust;
  readonly note?: string | undefined;
}

const amountSchema = z.union([
  z.number(),
  z.strictObject({ from: z.number(), to: z.number() }).refine(({ from, to }) => from < to),
]);

/** A fact of a data file whose source is a key of the file's list. */
const factOf = <Value extends z.ZodType>(value: Value) =>
  z.strictObject({
    value,
    unit: z.string(),
    source: z.string(),
    trust: z.enum(trusts),
    note: z.string().optional(),
  });

export const amountFact = factOf(amountSchema);

/** A number in SI with the form in which its source prints it. */
export const printedNumber = factOf(z.number()).extend({ printed: z.string() });
export type PrintedNumber = Fact<number> & { readonly printed: string };

/** What a data file of such numbers holds: its own words, its sources, and the numbers by name. */
export const numbersFile = <Name extends string>(names: readonly Name[]) =>
  z.strictObject({
    schema: z.literal(1),
    title: z.string(),
    about: z.string(),
    transcribed: z.string(),
    sources: z.record(z.string(), z.string()),
    numbers: z.record(z.enum(names), printedNumber),
  });

/** Safety classes of ASHRAE 34: a letter for poison, a number for flame. */
export const safetyClasses = ["A1", "A2L", "A2", "A3", "B1", "B2L", "B2", "B3"] as const;
export type SafetyClass = (typeof safetyClasses)[number];

export const classFact = factOf(z.enum(safetyClasses));

/**
 * Replaces the key of a fact's source by its words.
 * @throws RangeError if the file does not list the key.
 */
export function sourced<F extends { readonly source: string }>(
  fact: F,
  sources: Readonly<Record<string, string>>,
): F {
  const source = sources[fact.source];
  if (source === undefined) throw new RangeError(`no source "${fact.source}"`);
  return { ...fact, source };
}

/** A fact that computations may rely on; `undefined` for a missing or a shaky one. */
export function usable<F extends { readonly trust: Trust }>(fact: F | undefined): F | undefined {
  return fact?.trust === "shaky" ? undefined : fact;
}

/** Both ends of what is known of a figure. */
export const intervalOf = (amount: Amount): Interval =>
  typeof amount === "number" ? { from: amount, to: amount } : amount;

/** The figure, or the higher end where only an interval is known. */
export const upperOf = (amount: Amount): number =>
  typeof amount === "number" ? amount : amount.to;
