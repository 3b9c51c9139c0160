import fc from "fast-check";
import { expect, test } from "vitest";
import { project } from "../project.ts";
import type { StoredEvent } from "../view.ts";
import { instantReader } from "./clock.ts";
import { readStream, type StreamBatch } from "./stream.ts";
import { readTrace } from "./read.ts";

const stream = "0198c0de-0000-7000-8000-000000000001";
const start = Date.UTC(2026, 5, 14, 8);
const at = (s: number): string => new Date(start + 1000 * s).toISOString();
const vent = { column: "vent", quantity: "vent-temperature", unit: "°C" } as const;
const low = { column: "low", quantity: "low-side", unit: "psig" } as const;
const value = (i: number): number =>
  Math.round(10 * (7 + 12 * Math.exp(-i / 60) + Math.sin(i))) / 10;

const batch = (from: number, to: number): StreamBatch => ({
  stream,
  samples: Array.from({ length: to - from }, (_, k) => ({
    at: at(from + k),
    values: [value(from + k), 30 + ((from + k) % 7) / 10],
  })),
});

test("a stream reads as a logger's file of the same samples", () => {
  const rows = Array.from({ length: 400 }, (_, i) => `${at(i)},${value(i)},${30 + (i % 7) / 10}`);
  const file = readTrace(
    `time,vent,low\n${rows.join("\n")}`,
    { decimal: ".", time: { column: "time", form: "iso" }, columns: [vent, low] },
    95_000,
  );
  const streamed = readStream([vent, low], [batch(0, 120), batch(120, 400)], 95_000);
  expect(streamed.start).toBe(file.start);
  for (const [k, { t, values }] of file.series.entries()) {
    expect(streamed.series[k]?.t).toEqual(t);
    values.forEach((one, i) => {
      expect(streamed.series[k]?.values[i]).toBeCloseTo(one, 6);
    });
  }
});

test("batches in any order, twice or overlapping, say the same", () => {
  const whole = readStream([vent, low], [batch(0, 90)], 101_325);
  const cuts = fc.array(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 6 });
  const property = fc.property(cuts, fc.infiniteStream(fc.nat()), (points, random) => {
    const edges = [0, ...points.sort((a, b) => a - b), 90];
    const parts = edges.slice(1).map((to, i) => batch(edges[i] ?? 0, to));
    const late = [...parts, ...parts.slice(0, 2)]
      .filter(({ samples }) => samples.length > 0)
      .map((one) => ({ one, key: random.next().value as number }))
      .sort((a, b) => a.key - b.key)
      .map(({ one }) => one);
    const read = readStream([vent, low], late, 101_325);
    expect(read.series).toEqual(whole.series);
    expect(read.start).toBe(whole.start);
  });
  fc.assert(property, { seed: 12, numRuns: 100 });
});

test("what cannot be used is kept aside and named", () => {
  const odd: StreamBatch = {
    stream,
    samples: [
      { at: at(90), values: [9] },
      { at: at(91), values: [9, 30, 1] },
      { at: at(92), values: [null, 31] },
      { at: at(93), values: [1e9, 31] },
      { at: at(200), values: [9, 31] },
    ],
  };
  const { series, problems, rows } = readStream([vent, low], [batch(0, 90), odd], 101_325);
  expect(problems.map(({ kind, line }) => [kind, line])).toEqual([
    ["short-row", 91],
    ["long-row", 92],
    ["impossible-value", 92],
    ["gap-in-time", 93],
  ]);
  expect(rows).toEqual({ read: 95, kept: 93 });
  expect(series.map(({ t }) => t.length)).toEqual([91, 93]);
  expect(readStream([vent], [], 101_325).series[0]?.t).toHaveLength(0);
});

const event = (n: number, type: StoredEvent["type"], body: unknown): StoredEvent => ({
  id: `0198c0de-0000-7000-8000-${n.toString(16).padStart(12, "0")}`,
  trial: "7a11a5ed-0000-4000-8000-000000000001",
  at: at(n),
  device: "bay",
  type,
  v: 1,
  body,
});

test("a run is recorded from a stream as from a file", () => {
  const opened = event(1, "stream-opened", {
    stage: "run",
    name: "Bay logger",
    columns: [vent, low],
  });
  const batches = [0, 200, 400].map((from, i) =>
    event(10 + i, "samples-received", batch(from, from + 200)),
  );
  const run = event(700, "run-recorded", {
    stage: "run",
    name: "Parked",
    condition: "parked-idle",
    airSource: "recirculation",
    blower: "high",
    charged: { kind: "fluid", fluid: "R134a" },
    trace: opened.id,
    from: at(100).replace("Z", ""),
    to: at(599).replace("Z", ""),
  });
  const view = project([opened, ...batches, run]);
  expect(view.refused).toEqual([]);
  expect(view.traces[0]).toMatchObject({
    id: opened.id,
    stream: true,
    rows: { read: 600, kept: 600 },
  });
  const quantities = new Set(view.runs[0]?.values.map(({ quantity }) => quantity));
  expect(quantities).toEqual(new Set(["vent-temperature", "low-side"]));
  expect(view.runs[0]?.values[0]?.value).toBeCloseTo(273.15 + 7, 0);
});

test("instants in a row are read as one by one, in every form that a sample may have", () => {
  const read = instantReader();
  for (const at of [
    "2026-06-14T08:41:00.000Z",
    "2026-06-14T08:41:59.999Z",
    "2026-06-14T08:41:07.5Z",
    "2026-06-14T08:42:00.001Z",
    "2026-06-14T10:42:00+02:00",
    "2026-06-14T08:41:30.250Z",
    "2026-12-31T23:59:59.999Z",
    "2027-01-01T00:00:00Z",
    "2027-01-01T00:00:00.000Z",
  ]) {
    expect(read(at)).toBe(Date.parse(at));
  }
});
