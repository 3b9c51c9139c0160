import fc from "fast-check";
import Papa from "papaparse";
import { expect, test } from "vitest";
import { exportTrial } from "../export.ts";
import { harbour } from "../demonstration/harbour/harbour.ts";
import { project } from "../project.ts";
import type { StoredEvent } from "../view.ts";
import { dataTables } from "./data-tables.ts";
import { logTable, parseLogTable } from "./log-table.ts";

const events = harbour();
const files = new Map(
  dataTables(project(events), events).map(({ name, text }) => [name, Papa.parse(text).data]),
);
const file = (name: string): string[][] => files.get(name) ?? [];

test("a log table read in again is the same trial", () => {
  const parsed = parseLogTable(logTable(events));
  if (parsed.kind === "invalid") throw new Error(JSON.stringify(parsed.issues));
  expect(exportTrial(parsed.events)).toEqual(exportTrial(events));
});

test("any device name and note survive the table, and no cell begins a formula", () => {
  const text = fc.string({ minLength: 1, maxLength: 60, unit: "binary" });
  const [opened] = events;
  if (!opened) throw new Error("the invented trial begins");
  fc.assert(
    fc.property(text, text, (device, note) => {
      const event = {
        ...opened,
        device: device.trim() || "x",
        type: "note-written",
        body: { stage: "plan", text: note.trim() || "x" },
      } as StoredEvent;
      const table = logTable([event]);
      const parsed = parseLogTable(table);
      if (parsed.kind === "invalid") throw new Error(JSON.stringify(parsed.issues));
      expect(parsed.events[0]).toMatchObject({ body: event.body, device: event.device });
      for (const cell of Papa.parse(table).data.flat()) expect(cell).not.toMatch(/^[=+@-]/);
    }),
    { numRuns: 300, seed: 3 },
  );
});

test("every column of every table is in the dictionary", () => {
  const known = new Set(file("dictionary.csv").map(([table, column]) => `${table} ${column}`));
  for (const [name] of files) {
    if (name === "dictionary.csv") continue;
    for (const column of file(name)[0] ?? []) expect(known).toContain(`${name} ${column}`);
  }
});

test("tables hold a line for every reading, figure and posting", () => {
  const view = project(events);
  const rows = (name: string): number => file(name).filter((line) => line.length > 1).length - 1;
  expect(rows("readings.csv")).toBe(view.readings.length);
  expect(rows("runs.csv")).toBe(view.runs.flatMap(({ values }) => values).length);
  expect(rows("masses.csv")).toBe(view.ledger.postings.length);
});

test("a table that is none says what it lacks", () => {
  expect(parseLogTable("a,b\n1,2\n")).toMatchObject({
    kind: "invalid",
    issues: [{ field: "line 1", value: "a,b" }],
  });
  const broken = logTable(events).replace('{""title""', "{title");
  expect(parseLogTable(broken)).toMatchObject({ kind: "invalid" });
});
