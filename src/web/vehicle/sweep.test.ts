import { expect, test } from "vitest";
import { bandAt, type BandPlace } from "./sweep-bands.ts";
import { gapsOf } from "./sweep-lines.ts";
import type { SweepPlace } from "./vehicle-results.ts";

const stopped = (at: number, message: string): SweepPlace => ({ at, state: "stopped", message });
const runs = (at: number): SweepPlace => ({
  at,
  state: "running",
  ...{ low: 3e5, high: 1.5e6, vent: 280, capacity: 4e3, power: 2e3, cop: 2 },
  ...{ discharge: 350, superheat: 5, subcooling: 8, duty: 1, regime: "balanced" },
});

test("neighbouring places without an answer are one gap as long as the reason is one", () => {
  const places = [
    stopped(1, "cold"),
    stopped(2, "cold"),
    stopped(3, "no load"),
    runs(4),
    stopped(5, "no load"),
  ];
  expect(gapsOf(places)).toEqual([
    { from: 1, to: 2, why: "cold" },
    { from: 3, to: 3, why: "no load" },
    { from: 5, to: 5, why: "no load" },
  ]);
});

const bands: readonly BandPlace[] = [
  { at: 0, band: { vent: { from: 10, to: 20 } } },
  { at: 10, band: { vent: { from: 20, to: 40 } } },
  { at: 20, band: {} },
];

test("a band runs straight between its places, and never cuts its line off", () => {
  expect(bandAt(bands, "vent", 0, 15)).toEqual({ from: 10, to: 20 });
  expect(bandAt(bands, "vent", 5, 22)).toEqual({ from: 15, to: 30 });
  expect(bandAt(bands, "vent", 5, 31)).toEqual({ from: 15, to: 31 });
});

test("beside a place without an answer, and before any is known, there is no band", () => {
  expect(bandAt(bands, "vent", 15, 30)).toBeUndefined();
  expect(bandAt([], "vent", 5, 30)).toBeUndefined();
});
