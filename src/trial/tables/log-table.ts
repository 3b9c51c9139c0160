import Papa from "papaparse";
import type { ParsedExport } from "../export.ts";
import { exportTrial, parseExport } from "../export.ts";
import type { Issue, StoredEvent } from "../view.ts";
import { type Column, sheetText } from "./sheet.ts";

/** The log itself as a table: one line an entry, everything kept, so that it can be read in again. */
export const logColumns: readonly Column<StoredEvent>[] = [
  { name: "trial", says: "Trial's id, the same in every line.", of: ({ trial }) => trial },
  { name: "id", says: "Entry's id, UUIDv7, made where the entry was made.", of: ({ id }) => id },
  { name: "at", says: "When the entry was made, ISO 8601, UTC.", of: ({ at }) => at },
  {
    name: "device",
    says: "Where it was made: a JSON text.",
    of: ({ device }) => JSON.stringify(device),
  },
  { name: "type", says: "Kind of entry.", of: ({ type }) => type },
  { name: "v", says: "Version of that kind's body.", of: ({ v }) => v },
  {
    name: "body",
    says: "What was entered, as it was typed: a JSON object.",
    of: ({ body }) => JSON.stringify(body),
  },
];

export const logTable = (events: readonly StoredEvent[]): string =>
  sheetText(logColumns, exportTrial(events).events);

/** A log table from outside; taken whole or not at all. Never throws. */
export function parseLogTable(text: string): ParsedExport {
  const { data } = Papa.parse(text, { skipEmptyLines: true });
  const [head = [], ...lines] = data;
  const places = new Map(head.map((name, i) => [name, i]));
  const missing = logColumns.filter(({ name }) => !places.has(name)).map(({ name }) => name);
  if (missing.length > 0) {
    const accepted = `a first line that names ${logColumns.map(({ name }) => name).join(", ")}`;
    return { kind: "invalid", issues: [{ field: "line 1", value: head.join(","), accepted }] };
  }
  const issues: Issue[] = [];
  const events = lines.map((line, i) => {
    const cell = (name: string): string => line[places.get(name) ?? -1] ?? "";
    const json = (name: string): unknown => {
      try {
        return JSON.parse(cell(name)) as unknown;
      } catch {
        const field = `line ${i + 2}, ${name}`;
        if (issues.length < 50)
          issues.push({ field, value: cell(name).slice(0, 80), accepted: "JSON" });
        return undefined;
      }
    };
    const { trial, id, at, type } = {
      trial: cell("trial"),
      id: cell("id"),
      at: cell("at"),
      type: cell("type"),
    };
    return {
      trial,
      id,
      at,
      type,
      device: json("device"),
      v: Number(cell("v")),
      body: json("body"),
    };
  });
  if (issues.length > 0) return { kind: "invalid", issues };
  return parseExport({
    format: "coldproof-trial",
    version: 1,
    trial: events[0]?.trial ?? "",
    events,
  });
}
