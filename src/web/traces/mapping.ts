import {
  type BodyOf,
  type Inspection,
  quantityDimension,
  readingQuantities,
  type ReadingQuantity,
  type TrialView,
} from "../../trial/index.ts";
import { isUnit, unitsOf } from "../../units/index.ts";
import { offeredInstrument } from "../readings/instruments.ts";
import type { Draft } from "../shell/drafts.ts";
import { prefer, preferences, type RememberedMapping } from "../shell/preferences.ts";

export type Mapping = BodyOf<"trace-imported">["mapping"];

const isQuantity = (text: string): text is ReadingQuantity =>
  (readingQuantities as readonly string[]).includes(text);

/** Suggestions as a form: what was confirmed for the same headings before, else what the words suggest. */
export function startMapping(inspection: Inspection): Draft {
  const remembered = preferences.value.mappings[inspection.signature];
  return remembered ? fromRemembered(inspection, remembered) : fromSuggestions(inspection);
}

export const isRemembered = (inspection: Inspection): boolean =>
  preferences.value.mappings[inspection.signature] !== undefined;

function fromSuggestions(inspection: Inspection): Draft {
  const draft: Record<string, string> = { decimal: inspection.decimal };
  if (inspection.time) {
    draft["time.column"] = inspection.time.column;
    draft["time.form"] = inspection.time.form;
    draft["time.unit"] = inspection.time.unit ?? "s";
  }
  for (const { column, quantity, unit } of inspection.columns) {
    const i = inspection.headings.indexOf(column);
    draft[`${i}.quantity`] = quantity ?? "";
    if (unit !== undefined) draft[`${i}.unit`] = unit;
  }
  return draft;
}

function fromRemembered(inspection: Inspection, remembered: RememberedMapping): Draft {
  const draft: Record<string, string> = {
    decimal: remembered.decimal,
    "time.column": remembered.timeColumn,
    "time.form": remembered.timeForm,
    "time.unit": remembered.timeUnit ?? "s",
  };
  for (const { column, quantity, unit } of remembered.columns) {
    const i = inspection.headings.indexOf(column);
    draft[`${i}.quantity`] = quantity;
    draft[`${i}.unit`] = unit;
  }
  return draft;
}

/** The unit of a column: the chosen one when it fits its quantity, else the first that does. */
export function columnUnit(draft: Draft, i: number, quantity: ReadingQuantity): string {
  const dimension = quantityDimension[quantity];
  const chosen = draft[`${i}.unit`] ?? "";
  return isUnit(chosen, dimension) ? chosen : (unitsOf(dimension)[0]?.id ?? "");
}

/** The instrument of a column: the chosen one, else the one that fits by kind and name. */
export const columnInstrument = (
  view: TrialView,
  draft: Draft,
  i: number,
  quantity: ReadingQuantity,
): string =>
  draft[`${i}.instrument`] ??
  offeredInstrument(view, { quantity, dimension: quantityDimension[quantity] });

/** The mapping as the form stands; undefined while no time or no column is named. */
export function mappingOf(
  view: TrialView,
  inspection: Inspection,
  draft: Draft,
): Mapping | undefined {
  const column = draft["time.column"] ?? "";
  const form = draft["time.form"] as Mapping["time"]["form"] | undefined;
  const columns = inspection.headings.flatMap((heading, i) => {
    const quantity = draft[`${i}.quantity`] ?? "";
    if (heading === column || !isQuantity(quantity)) return [];
    const instrument = columnInstrument(view, draft, i, quantity);
    return [
      {
        column: heading,
        quantity,
        unit: columnUnit(draft, i, quantity),
        ...(instrument !== "" && { instrument }),
      },
    ];
  });
  if (column === "" || form === undefined || columns.length === 0) return undefined;
  return {
    decimal: draft["decimal"] === "," ? "," : ".",
    time: { column, form, ...(form === "elapsed" && { unit: draft["time.unit"] ?? "s" }) },
    columns,
  };
}

/** Two columns may not be the same quantity: a run would not know which to take. */
export function doubled(mapping: Mapping): readonly ReadingQuantity[] {
  const seen = mapping.columns.map(({ quantity }) => quantity);
  return seen.filter((quantity, i) => seen.indexOf(quantity) !== i);
}

/** Remembered for the next file with the same headings. */
export function rememberMapping(inspection: Inspection, mapping: Mapping): void {
  const remembered: RememberedMapping = {
    decimal: mapping.decimal,
    timeColumn: mapping.time.column,
    timeForm: mapping.time.form,
    ...(mapping.time.unit !== undefined && { timeUnit: mapping.time.unit }),
    columns: mapping.columns.map(({ column, quantity, unit }) => ({ column, quantity, unit })),
  };
  prefer({ mappings: { ...preferences.value.mappings, [inspection.signature]: remembered } });
}
