import { expect, test } from "vitest";
import { runHolds } from "../../../test/campaign/hold-runs.ts";
import { analyseHold } from "./analyse.ts";
import { prepareHold, stepOf } from "./trace.ts";

test(
  "a few made holds: at most one in twenty named wrongly where separable",
  { timeout: 60_000 },
  () => {
    const seen = runHolds(40, 5);
    expect(seen.wrong).toBeLessThanOrEqual(0.05);
    expect(seen.likeliestSeparable).toBeGreaterThanOrEqual(0.9);
  },
);

test("the step of a gauge is what all differences are multiples of", () => {
  expect(stepOf([400, 405, 420, 455])).toBeCloseTo(5, 9);
  expect(stepOf([7, 7, 7])).toBe(0);
});

test("a run of equal readings is told by its ends, and many rows are averaged", () => {
  const p = [5, 5, 5, 5, 6, 6, 6];
  expect(prepareHold({ t: p.map((_, i) => i), p, T: 293 }).t).toHaveLength(4);
  const many = Array.from({ length: 1000 }, (_, i) => i);
  expect(prepareHold({ t: many, p: many.map((i) => i + 1), T: 293 }).t).toHaveLength(200);
});

test("a leak's rate scales with the volume, and its interval holds the truth", () => {
  const t = Float64Array.from({ length: 20 }, (_, i) => 30 * i);
  const p = t.map((s) => 50 + 0.22 * s);
  const at = (volume: number) =>
    analyseHold({ t, p, T: 293.15 }, { volume, uVolume: 0, uGauge: 0.05 });
  const [one, two] = [at(1e-3), at(2e-3)];
  expect(one.cause).toBe("leaking");
  expect(two.leak.rate / one.leak.rate).toBeCloseTo(2, 6);
  expect(one.leak.from).toBeLessThan(2.2e-4);
  expect(one.leak.to).toBeGreaterThan(2.2e-4);
});

test("too few rows are the caller's bug", () => {
  expect(() =>
    analyseHold({ t: [0, 1], p: [1, 2], T: 293 }, { volume: 1, uVolume: 0, uGauge: 0 }),
  ).toThrow(RangeError);
});
