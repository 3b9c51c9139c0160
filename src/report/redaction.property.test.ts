import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  exportTrial,
  hidables,
  logSeal,
  parseExport,
  project,
  redacted,
  type StoredEvent,
} from "../trial/index.ts";
import { figuresOf } from "./figures.ts";
import { checkReport, renderReport } from "./render-report.ts";

function demonstration(name: string): readonly StoredEvent[] {
  const file = parseExport(
    JSON.parse(readFileSync(`data/demonstration/${name}.json`, "utf8")) as unknown,
  );
  if (file.kind !== "export") throw new RangeError("the demonstration does not parse");
  return file.events;
}
const events = demonstration("hill-town");
const day = "2026-06-20";

/** Ids of two logs by their place: the same entry has the same number in both. */
function byPlace(log: readonly StoredEvent[], text: string): string {
  const numbers = new Map(exportTrial(log).events.map(({ id }, i) => [id, `#${i}`]));
  return text.replace(/[0-9a-f]{8}-[0-9a-f-]{27}/g, (id) => numbers.get(id) ?? "trial");
}

/** Every number, with its place in the tree; words may have been replaced. */
function numbersOf(log: readonly StoredEvent[], value: unknown): unknown {
  const text = byPlace(log, JSON.stringify(value));
  return JSON.parse(text, (_, one: unknown) => (typeof one === "string" ? "…" : one));
}

const quick = (log: readonly StoredEvent[]): unknown => {
  const { readings, runs, ledger, comparisons, drift, atmosphere, stages } = project(log);
  return {
    ...{ readings, runs, comparisons, drift, atmosphere },
    ledger: { postings: ledger.postings, closures: ledger.closures },
    stages: stages.map(({ status }) => status),
  };
};
const before = numbersOf(events, quick(events));

/** Words that stand in the log, and some that stand in its headings and clocks. */
const words = [
  ...new Set(JSON.stringify(events).match(/[A-Za-z]{3,}/g)),
  ...["vent centre", "2026", "steady", "temperature", "hill town", "product"],
];

test("whatever is hidden, every number stays and nothing hidden is left", () => {
  fc.assert(
    fc.property(
      fc.subarray([...hidables]),
      fc.uniqueArray(fc.constantFrom(...words), { maxLength: 6 }),
      (hide, chosen) => {
        const after = redacted(events, { hide, words: chosen });
        expect(numbersOf(after.events, quick(after.events))).toEqual(before);
        expect(parseExport(exportTrial(after.events)).kind).toBe("export");
        const left = JSON.stringify(after.events);
        for (const { what, was } of after.replaced) {
          if (what === "words" || was.length < 8) continue;
          expect(left, `${what} ${was}`).not.toContain(`"${was}"`);
        }
      },
    ),
    { numRuns: 60, seed: 8 },
  );
});

test("all figures of a redacted log are those of its original, and its report holds and says so", () => {
  const device = events[0]?.device ?? "";
  const { events: after, replaced, kept } = redacted(events, { hide: hidables, words: ["Hill"] });
  expect(numbersOf(after, figuresOf(project(after), day))).toEqual(
    numbersOf(events, figuresOf(project(events), day)),
  );
  expect(kept).toEqual([]);
  expect(replaced.find(({ was }) => was === device)).toMatchObject({ what: "devices" });
  const html = renderReport(after, { generatedAt: `${day}T12:00:00Z`, units: "si", program: "1" });
  expect(html).toContain("Redacted before publishing");
  expect(html).toContain(logSeal(events));
  expect(html).not.toContain(device);
  expect(html).not.toMatch(/hill/i);
  expect(checkReport(html, "1")).toMatchObject({ kind: "checked", sound: true });
});

test("the same choice gives the same other log, which stands beside its original", () => {
  const once = redacted(events, { hide: ["places"], words: [] }).events;
  const again = redacted([...events].reverse(), { hide: ["places"], words: [] }).events;
  expect(logSeal(again)).toBe(logSeal(once));
  const own = new Set([...events.map(({ id }) => id), ...events.map(({ trial }) => trial)]);
  expect(once.filter(({ id, trial }) => own.has(id) || own.has(trial))).toEqual([]);
  const other = redacted(events, { hide: ["notes"], words: [] }).events;
  expect(other.filter(({ id }) => once.some((one) => one.id === id))).toEqual([]);
  expect(new Set(once.map(({ id }) => id)).size).toBe(events.length + 1);
});

test("a word that a verdict or a figure is read from stays, and is named", () => {
  const { kept } = redacted(events, { hide: [], words: ["flammable"] });
  for (const { word } of kept) expect(word).toBe("flammable");
  const dates = redacted(events, { hide: [], words: ["2026-06"] });
  expect(numbersOf(dates.events, quick(dates.events))).toEqual(before);
});
