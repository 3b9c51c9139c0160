import { isUnit } from "../../units/index.ts";
import { quantityDimension } from "../dimensions.ts";
import type { ReadingQuantity } from "../events.ts";
import { formsOf, type TimeForm } from "./clock.ts";
import { type Table, tableOf } from "./table.ts";
import { isTimeHeading, suggestedQuantity, suggestedTimeUnit, suggestedUnit } from "./words.ts";

/** A guess about a column, for a person to confirm or change. */
export interface ColumnSuggestion {
  readonly column: string;
  readonly quantity?: ReadingQuantity;
  readonly unit?: string;
  /** What the heading leaves open; present when a person must confirm it. */
  readonly doubt?: string;
}

export interface Inspection {
  readonly headings: readonly string[];
  /** The same for files with the same headings: the key of a remembered mapping. */
  readonly signature: string;
  readonly delimiter: Table["delimiter"];
  readonly decimal: "." | ",";
  readonly rowCount: number;
  readonly sample: readonly (readonly string[])[];
  readonly comments: readonly string[];
  readonly time?: {
    readonly column: string;
    readonly form: TimeForm;
    readonly unit?: string;
    /** Other forms that would read the same cells, so that 3/4 can be asked about. */
    readonly alternatives: readonly TimeForm[];
  };
  readonly columns: readonly ColumnSuggestion[];
}

const sampleSize = 8;
const rowsLookedAt = 400;

/** Headings of one file reduced to what does not change between two files of one logger. */
export const headingSignature = (headings: readonly string[]): string =>
  headings.map((heading) => heading.toLowerCase().replace(/\s+/gu, " ").trim()).join("|");

/** First look at a logger's file: its shape, and suggestions for the mapping. Never throws. */
export function inspectTable(content: string): Inspection {
  const table = tableOf(content);
  const rows = table.rows.filter(({ cells }) => cells.length === table.headings.length);
  const looked = rows.slice(0, rowsLookedAt).map(({ cells }) => cells);
  const time = timeOf(table.headings, looked);
  return {
    headings: table.headings,
    signature: headingSignature(table.headings),
    delimiter: table.delimiter,
    decimal: decimalOf(table, looked),
    rowCount: table.rows.length,
    sample: looked.slice(0, sampleSize),
    comments: table.comments.map(({ raw }) => raw),
    ...(time && { time }),
    columns: table.headings
      .filter((heading) => heading !== time?.column)
      .map((heading) => columnOf(heading)),
  };
}

/** Cells with one mark between digits vote; a comma that separates columns cannot be a decimal. */
function decimalOf({ delimiter }: Table, rows: readonly (readonly string[])[]): "." | "," {
  if (delimiter === ",") return ".";
  const cells = rows.flat();
  const count = (pattern: RegExp) => cells.filter((cell) => pattern.test(cell)).length;
  return count(/^[+-]?\d*,\d+$/u) > count(/^[+-]?\d*\.\d+$/u) ? "," : ".";
}

function timeOf(
  headings: readonly string[],
  rows: readonly (readonly string[])[],
): Inspection["time"] | undefined {
  const named = headings.findIndex(isTimeHeading);
  for (const index of new Set([named, 0])) {
    const column = headings[index];
    if (column === undefined) continue;
    const [form, ...alternatives] = formsOf(rows.map((cells) => cells[index] ?? ""));
    if (!form) continue;
    const unit = form === "elapsed" ? (suggestedTimeUnit(column) ?? "s") : undefined;
    return { column, form, alternatives, ...(unit !== undefined && { unit }) };
  }
  return undefined;
}

function columnOf(column: string): ColumnSuggestion {
  const quantity = suggestedQuantity(column);
  const unit = suggestedUnit(column);
  const fits = unit && (!quantity || isUnit(unit.unit, quantityDimension[quantity]));
  return {
    column,
    ...(quantity && { quantity }),
    ...(fits && { unit: unit.unit }),
    ...(fits && unit.doubt !== undefined && { doubt: unit.doubt }),
  };
}
