import { z } from "zod";
import type { Accuracy } from "../service/index.ts";
import { type Dimension, parseNumber, parseQuantity, siUnit, unitSize } from "../units/index.ts";
import { type Field, type FieldOutcome, unusable } from "./field.ts";

const BY_QUARTER = /^([\d.,]+)\s*-\s*([\d.,]+)\s*-\s*([\d.,]+)\s*%?\s*of\s+(.+)$/i;
const PERCENT = /^([\d.,]+)\s*%\s*of\s+(?:the\s+)?(.+)$/i;

type Differences = Extract<Dimension, "pressure-difference" | "temperature-difference">;

/** A positive number that can be an error in percent. */
function percentOf(text: string): number | undefined {
  const parsed = parseNumber(text);
  return parsed.kind === "number" && parsed.value > 0 && parsed.value <= 50
    ? parsed.value
    : undefined;
}

/** A positive difference in SI. */
function differenceOf(text: string, dimension: Differences): number | undefined {
  const parsed = parseQuantity(text, dimension);
  if (parsed.kind === "invalid") return undefined;
  const value = parsed.quantity.value * unitSize(parsed.quantity.unit);
  return value > 0 && value < 1e9 ? value : undefined;
}

function byQuarter(text: string, dimension: Differences): Accuracy | undefined {
  const [, first = "", second = "", third = "", scale = ""] = BY_QUARTER.exec(text) ?? [];
  const [outer, middle, to] = [percentOf(first), percentOf(second), differenceOf(scale, dimension)];
  if (outer === undefined || middle === undefined || to === undefined || first !== third)
    return undefined;
  return { kind: "percent-of-span-by-quarter", outer, middle, from: 0, to };
}

function byPercent(text: string, dimension: Differences): Accuracy | undefined {
  const [, digits = "", rest = ""] = PERCENT.exec(text) ?? [];
  const percent = percentOf(digits);
  if (percent === undefined) return undefined;
  if (rest.trim().toLowerCase() === "reading") return { kind: "percent-of-reading", percent };
  const to = differenceOf(rest, dimension);
  return to === undefined ? undefined : { kind: "percent-of-span", percent, from: 0, to };
}

function fromText(text: string, dimension: Differences): Accuracy | undefined {
  const limit = differenceOf(text, dimension);
  if (limit !== undefined) return { kind: "limit", limit };
  return byQuarter(text, dimension) ?? byPercent(text, dimension);
}

/**
 * How exact an instrument is: a limit of error as SI number or text, or its class as text.
 *
 * Scales start at the instrument's own zero: "1.6 % of 35 bar" is a gauge from 0 to 35 bar.
 */
export function accuracy(dimension: Differences, says: string): Field<Accuracy> {
  const example =
    dimension === "pressure-difference"
      ? ["2.4 psi", "35 bar", "120 psi"]
      : ["1 K", "200 K", "200 K"];
  const [limit = "", scale = "", quarters = ""] = example;
  const accepted = `a limit of error as a number in ${siUnit(dimension)} or text such as "${limit}", or a class such as "1.6 % of ${scale}", "3-2-3 of ${quarters}" or "10 % of reading"`;
  return {
    schema: z.union([z.number(), z.string().max(80)]).describe(`${says}: ${accepted}.`),
    required: true,
    read(raw, name): FieldOutcome<Accuracy> {
      if (typeof raw === "string") {
        const value = fromText(raw.trim(), dimension);
        return value ? { kind: "value", value } : unusable(name, raw, accepted);
      }
      const number = Number(raw);
      return number > 0 && number < 1e9
        ? { kind: "value", value: { kind: "limit", limit: number } }
        : unusable(name, raw, accepted);
    },
  };
}
