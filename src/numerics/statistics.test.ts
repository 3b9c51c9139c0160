import fc from "fast-check";
import { expect, test } from "vitest";
import {
  autocorrelationTime,
  createRandom,
  effectiveSampleSize,
  fitLine,
  mean,
  median,
  normal,
  standardDeviation,
} from "./index.ts";

test("means, medians and scatter by hand", () => {
  expect(mean([1, 2, 6])).toBe(3);
  expect(median([5, 1, 3])).toBe(3);
  expect(median([4, 1, 3, 2])).toBe(2.5);
  // Squares 4, 1, 9 about 3, over n - 1 = 2.
  expect(standardDeviation([1, 2, 6])).toBeCloseTo(Math.sqrt(7), 14);
  expect(() => mean([])).toThrow(RangeError);
  expect(() => median([])).toThrow(RangeError);
  expect(() => standardDeviation([1])).toThrow(RangeError);
});

test("the thermometer calibration of GUM H.3 gives its printed line", () => {
  // JCGM 100:2008 table H.6 (readings t_k, corrections b_k; from memory), line about t0 = 20 °C, results of H.3.3.
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const line = fitLine(t, b);
  const y1 = line.mean + line.slope * (20 - line.tMean);
  expect(y1).toBeCloseTo(-0.1712, 4);
  expect(line.slope).toBeCloseTo(0.00218, 5);
  expect(line.uSlopeIndependent).toBeCloseTo(0.00067, 5);
  expect(line.residualSd).toBeCloseTo(0.0035, 4);
});

test("a line refuses what has no line", () => {
  expect(() => fitLine([1, 2], [1, 2])).toThrow(RangeError);
  expect(() => fitLine([1, 1, 1], [1, 2, 3])).toThrow(RangeError);
  expect(() => fitLine([1, 2, 3], [1, 2])).toThrow(RangeError);
});

test.each([0, 0.5, 0.8, 0.9])("AR(1) noise with phi %f has time (1 + phi)/(1 - phi)", (phi) => {
  const random = createRandom(7);
  const n = 20_000;
  const noise = new Float64Array(n);
  let state = 0;
  for (let i = 0; i < n; i++) {
    state = phi * state + normal(random);
    noise[i] = state;
  }
  const expected = (1 + phi) / (1 - phi);
  expect(autocorrelationTime(noise) / expected).toBeGreaterThan(0.85);
  expect(autocorrelationTime(noise) / expected).toBeLessThan(1.15);
});

test("constant or tiny records count as independent", () => {
  expect(autocorrelationTime([0, 0, 0, 0, 0])).toBe(1);
  expect(autocorrelationTime([1, -1])).toBe(1);
  expect(effectiveSampleSize(100, 1e6)).toBe(1);
  expect(effectiveSampleSize(100, 0.2)).toBe(100);
});

test("the median is the middle of the sorted record, whatever its order and repeats", () => {
  const values = fc.oneof(fc.double({ noNaN: true }), fc.integer({ min: -2, max: 2 }));
  const orders = [
    (record: number[]) => record,
    (record: number[]) => record.sort((a, b) => a - b),
    (record: number[]) => record.sort((a, b) => b - a),
  ];
  const record = fc.array(values, { minLength: 1, maxLength: 300 });
  fc.assert(
    fc.property(record, fc.constantFrom(...orders), (given, ordered) => {
      const sorted = Float64Array.from(given).sort();
      const half = sorted.length >> 1;
      const [a = 0, b = 0] = [sorted[half], sorted[half - 1 + (sorted.length % 2)]];
      // Adding zero makes one zero of both.
      expect(median(ordered([...given])) + 0).toBe((sorted.length % 2 === 1 ? a : (b + a) / 2) + 0);
    }),
  );
});
