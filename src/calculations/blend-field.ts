import { z } from "zod";
import { type FluidId, fluidIds } from "../fluids/index.ts";
import { type NamedBlend, ratedBlends, type Part } from "../service/index.ts";
import { parseQuantity, toSI } from "../units/index.ts";
import { issue, type Issue } from "./answer.ts";
import type { Field, FieldOutcome } from "./field.ts";
import { findFluid } from "./fluid-field.ts";

/** A blend as asked for: with a name, or by fractions of one basis that sum to 1. */
export type BlendValue =
  | { readonly kind: "named"; readonly blend: NamedBlend }
  | {
      readonly kind: "fractions";
      readonly basis: "mass" | "mole";
      readonly parts: readonly Part[];
    };

/** More have no use in refrigerants, and the mixture model is made for no more. */
const MOST_PARTS = 8;
/** Largest list that is looked at, to say what is wrong with it. */
const LONGEST_LIST = 40;
/** Of the sum of fractions: room for rounding, not for a forgotten part. */
const SUM_SLACK = 1e-6;
const HUNDRED = 100;

/** Case, dashes, spaces, slashes and brackets do not tell blends apart: "hc-50/40/10" is HC 50/40/10. */
const plain = (name: string): string => name.toLowerCase().replace(/[\s\-‐–()/]/gu, "");

const byName = new Map(ratedBlends.map((blend) => [plain(blend.blend), blend]));

/** The blend that a name means: "r-441a" is R441A; `undefined` if none. */
export const findBlend = (name: string): NamedBlend | undefined => byName.get(plain(name));

const blendNames = ratedBlends.map(({ blend }) => blend).join(", ");
const amount = z.union([z.number(), z.string().max(40)]);
const component = z.strictObject({
  fluid: z.string().max(40).describe("Pure fluid by its designation"),
  mass: amount.optional().describe('Mass fraction: a number or a text with "%"'),
  mole: amount.optional().describe('Mole fraction: a number or a text with "%"'),
});
type Component = z.infer<typeof component>;
const schema = z
  .union([z.string().max(60), z.array(component).max(LONGEST_LIST)])
  .describe(
    `Blend: its name (${blendNames}), or a list of 2 to ${MOST_PARTS} parts {fluid, mass} or {fluid, mole} with fractions that sum to 1 or to 100.`,
  );

/** A part that is usable alone, or what is wrong with it. */
type ReadPart = { readonly part: Part; readonly basis: "mass" | "mole" } | Issue;

/** Fraction as number or text; not finite if neither. */
function fractionOf(given: string | number): number {
  if (typeof given === "number") return given;
  const parsed = parseQuantity(given, "ratio");
  return parsed.kind === "invalid" ? NaN : toSI(parsed.quantity);
}

function readPart({ fluid: name, mass, mole }: Component, place: string): ReadPart {
  const fluid = findFluid(name);
  if (fluid === undefined) {
    return issue(`${place}.fluid`, name, `a pure fluid out of: ${fluidIds.join(", ")}`);
  }
  const given = mass ?? mole;
  if (given === undefined || (mass !== undefined && mole !== undefined)) {
    const what = given === undefined ? "neither mass nor mole" : "both mass and mole";
    return issue(`${place}.mass`, what, "either mass or mole");
  }
  const basis = mass === undefined ? "mole" : "mass";
  const fraction = fractionOf(given);
  if (!(fraction > 0 && fraction <= HUNDRED * (1 + SUM_SLACK))) {
    return issue(`${place}.${basis}`, given, 'a fraction above 0, or a text such as "12.5 %"');
  }
  return { part: { fluid, fraction }, basis };
}

/** What is wrong between parts that are right alone. */
function betweenParts(
  parts: readonly Exclude<ReadPart, Issue>[],
  sum: number,
  whole: number,
): readonly Issue[] {
  const seen = new Set<FluidId>();
  const issues = parts.flatMap(({ part: { fluid }, basis }, i) => {
    const place = `blend[${i}]`;
    const twice = seen.has(fluid) ? [issue(`${place}.fluid`, fluid, "each fluid once")] : [];
    seen.add(fluid);
    const mixed =
      basis === parts[0]?.basis
        ? []
        : [issue(`${place}.${basis}`, basis, "all parts by mass or all by mole")];
    return [...twice, ...mixed];
  });
  if (issues.length > 0 || Math.abs(sum / whole - 1) <= SUM_SLACK) return issues;
  const says = `fractions that sum to 1 or to 100; these sum to ${sum.toPrecision(9)}`;
  return [issue("blend", sum, says)];
}

function readList(list: readonly Component[]): FieldOutcome<BlendValue> {
  if (list.length < 2 || list.length > MOST_PARTS) {
    const count = `${list.length} ${list.length === 1 ? "part" : "parts"}`;
    const accepted = `2 to ${MOST_PARTS} parts; a pure fluid goes into "fluid"`;
    return { kind: "unusable", issues: [issue("blend", count, accepted)] };
  }
  const read = list.map((each, i) => readPart(each, `blend[${i}]`));
  const wrong = read.filter((each) => "field" in each);
  if (wrong.length > 0) return { kind: "unusable", issues: wrong };
  const parts = read.filter((each) => "part" in each);
  const sum = parts.reduce((total, { part }) => total + part.fraction, 0);
  const whole = Math.abs(sum - HUNDRED) < Math.abs(sum - 1) ? HUNDRED : 1;
  const issues = betweenParts(parts, sum, whole);
  if (issues.length > 0) return { kind: "unusable", issues };
  const value: BlendValue = {
    kind: "fractions",
    basis: parts[0]?.basis ?? "mass",
    parts: parts.map(({ part: { fluid, fraction } }) => ({ fluid, fraction: fraction / sum })),
  };
  return { kind: "value", value };
}

/** A blend by its name or by fractions. */
export const blendField: Field<BlendValue> = {
  schema,
  required: true,
  read(raw, name) {
    if (typeof raw !== "string") return readList(z.array(component).parse(raw));
    const blend = findBlend(raw);
    if (blend) return { kind: "value", value: { kind: "named", blend } };
    const accepted = findFluid(raw)
      ? `a blend; ${raw} is a pure fluid and goes into "fluid"`
      : `a blend out of: ${blendNames}; or a list of parts {fluid, mass} or {fluid, mole}`;
    return { kind: "unusable", issues: [issue(name, raw, accepted)] };
  },
};
