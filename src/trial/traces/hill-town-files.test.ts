import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inspectTable } from "./inspect.ts";
import { proposeIntervals, within } from "./intervals.ts";
import { readTrace, type TraceContents } from "./read.ts";
import { settle } from "./settle.ts";

const air = 93_869;

/** Reads a file with the mapping that its own headings suggest, as a user would who agrees. */
function suggested(name: string) {
  const content = readFileSync(`data/demonstration/${name}`, "utf8");
  const inspection = inspectTable(content);
  const { time } = inspection;
  if (!time) throw new Error("no time column found");
  const columns = inspection.columns.flatMap(({ column, quantity, unit }) =>
    quantity && unit !== undefined ? [{ column, quantity, unit }] : [],
  );
  const trace = readTrace(content, { decimal: inspection.decimal, time, columns }, air);
  return { inspection, trace };
}

function counts({ problems }: TraceContents): Record<string, number> {
  const found: Record<string, number> = {};
  for (const { kind } of problems) found[kind] = (found[kind] ?? 0) + 1;
  return found;
}

/** Settled value of one quantity in one proposed interval. */
function settled(trace: TraceContents, quantity: string, interval: number): number {
  const proposal = proposeIntervals(trace)[interval];
  const series = trace.series.find((one) => one.quantity === quantity);
  if (!series || !proposal) throw new Error("nothing to settle");
  const { t, values } = within(series, proposal.fromSeconds, proposal.toSeconds);
  const found = settle(t, values);
  if (found.kind !== "settled") throw new Error(found.kind);
  return found.value;
}

test("the baseline file: US units, every fault found where it is", () => {
  const { inspection, trace } = suggested("hill-town-baseline-us.csv");
  expect(inspection).toMatchObject({ delimiter: ",", decimal: ".", time: { form: "iso" } });
  expect(inspection.columns.every(({ unit, doubt }) => unit !== undefined && !doubt)).toBe(true);
  // By eye from the file: line 215 OL, 303/304 twice, 404–407 blank, 614 dashes, 27 s before 909, 979 cut.
  expect(trace.problems.map(({ line, kind }) => `${line} ${kind}`)).toEqual([
    "1 comment",
    "215 over-range",
    "304 repeated-row",
    "404 blank-cell",
    "405 blank-cell",
    "406 blank-cell",
    "407 blank-cell",
    "614 no-value-mark",
    "909 gap-in-time",
    "979 short-row",
  ]);
  expect(trace.rows).toEqual({ read: 1416, kept: 1414 });
});

test("the product file: day first, decimal commas, German headings, one drop-out", () => {
  const { inspection, trace } = suggested("hill-town-product-b-si.csv");
  expect(inspection).toMatchObject({ delimiter: ";", decimal: ",", time: { form: "day-first" } });
  expect(inspection.columns.map(({ quantity, unit }) => `${quantity} ${unit}`)).toEqual([
    "low-side kPa(g)",
    "high-side kPa(g)",
    "vent-temperature °C",
    "outside-temperature °C",
    "vehicle-speed km/h",
  ]);
  expect(inspection.columns.filter(({ doubt }) => doubt).length).toBe(2);
  expect(counts(trace)).toEqual({ "impossible-value": 1 });
  expect(trace.problems[0]).toMatchObject({ line: 79, raw: "-999", keptRest: true });
  expect(trace.start).toBe("2026-06-15T13:05:00");
});

test("the hold file: elapsed minutes, micron, nothing wrong", () => {
  const { inspection, trace } = suggested("hill-town-hold.csv");
  expect(inspection.time).toMatchObject({ form: "elapsed", unit: "min" });
  expect(trace.problems).toEqual([]);
  expect(trace.series[0]?.t.at(-1)).toBe(1800);
  // 405 micron at 0.1333224 Pa each (facts head).
  expect(trace.series[0]?.values[0]).toBeCloseTo(405 * 0.1333224, 3);
});

test("parked and road intervals are proposed where the notes put them", () => {
  const us = proposeIntervals(suggested("hill-town-baseline-us.csv").trace);
  expect(us.map(({ condition }) => condition)).toEqual(["parked-idle", "road-steady"]);
  // Notes: 0–13 min parked, then about 40 mph.
  expect(us[0]?.toSeconds).toBe(779);
  expect((us[1]?.meanSpeed ?? 0) / 0.44704).toBeCloseTo(40, 0);
  expect(us[1]?.gaps).toBe(1);
  const si = proposeIntervals(suggested("hill-town-product-b-si.csv").trace);
  expect(si.map(({ condition }) => condition)).toEqual(["parked-idle", "road-steady"]);
  // Notes: 0–14 min parked.
  expect(si[0]?.toSeconds).toBe(839);
});

test("settled values are near what the eye reads off the last minutes", () => {
  const { trace } = suggested("hill-town-baseline-us.csv");
  const fahrenheit = (T: number) => (T - 273.15) * 1.8 + 32;
  expect(fahrenheit(settled(trace, "vent-temperature", 0))).toBeCloseTo(44.6, 0);
  expect(fahrenheit(settled(trace, "vent-temperature", 1))).toBeCloseTo(43.4, 0);
  expect((settled(trace, "low-side", 0) - air) / 6894.757).toBeCloseTo(30.7, 0);
  expect((settled(trace, "high-side", 1) - air) / 6894.757).toBeCloseTo(102.6, 0);
});
