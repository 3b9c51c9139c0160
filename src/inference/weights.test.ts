import { expect, test } from "vitest";
import { createRandom, normal } from "../numerics/index.ts";
import {
  cellQuantile,
  effectiveSamples,
  entropy,
  logSumExp,
  normalisedWeights,
  weightedQuantile,
} from "./weights.ts";

test("logarithms far outside the range of exp keep their ratio", () => {
  const w = normalisedWeights([-5000, -5000 + Math.log(3)]);
  expect(w[0]).toBeCloseTo(0.25, 12);
  expect(logSumExp([2000, 2000])).toBeCloseTo(2000 + Math.LN2, 9);
  expect([...normalisedWeights([-Infinity, -Infinity])]).toEqual([0, 0]);
  expect(logSumExp([])).toBe(-Infinity);
});

test("equal weights count every sample, one heavy weight counts one", () => {
  expect(effectiveSamples([0.25, 0.25, 0.25, 0.25])).toBeCloseTo(4, 12);
  expect(effectiveSamples([1, 0, 0])).toBe(1);
  expect(effectiveSamples([0, 0])).toBe(0);
});

test("importance weights turn samples of a wide normal into the quantiles of a narrow one", () => {
  const random = createRandom(7);
  const values = Float64Array.from({ length: 40_000 }, () => 3 * normal(random));
  const logs = values.map((x) => -0.5 * x ** 2 + 0.5 * (x / 3) ** 2);
  const weights = normalisedWeights(logs);
  // Normal quantiles: standard tables (NIST/SEMATECH e-Handbook 1.3.6.7.1).
  expect(weightedQuantile(values, weights, 0.975)).toBeCloseTo(1.96, 1);
  expect(weightedQuantile(values, weights, 0.5)).toBeCloseTo(0, 1);
  expect(weightedQuantile(values, weights, 0.8413)).toBeCloseTo(1, 1);
});

test("quantiles lie between the samples and refuse nonsense", () => {
  expect(weightedQuantile([1, 3], [1, 1], 0.5)).toBeCloseTo(2, 12);
  expect(weightedQuantile([1, 3], [1, 0], 0.9)).toBe(1);
  expect(() => weightedQuantile([1], [0], 0.5)).toThrow(RangeError);
  expect(() => weightedQuantile([1], [], 0.5)).toThrow(RangeError);
});

test("entropy of n equal chances is ln n", () => {
  expect(entropy([0.25, 0.25, 0.25, 0.25])).toBeCloseTo(Math.log(4), 12);
  expect(entropy([1, 0])).toBe(0);
});

test("quantiles of cells: even within a cell, over a gap, up to the ends", () => {
  const cells = [
    { from: 0, to: 2, weight: 1 },
    { from: 2, to: 3, weight: 0 },
    { from: 3, to: 4, weight: 3 },
  ];
  expect([0, 0.125, 0.25, 0.625, 1].map((share) => cellQuantile(cells, share))).toEqual([
    0, 1, 2, 3.5, 4,
  ]);
  expect(() => cellQuantile([{ from: 0, to: 1, weight: 0 }], 0.5)).toThrow(RangeError);
});
