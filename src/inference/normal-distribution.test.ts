import { expect, test } from "vitest";
import { mixtureCdf, mixtureQuantile, normalCdf, normalQuantile } from "./normal-distribution.ts";

// NIST/SEMATECH e-Handbook 1.3.6.7.1 (cumulative distribution function of the standard normal).
test.each([
  [0, 0.5],
  [1, 0.84134],
  [1.96, 0.975],
  [3, 0.99865],
])("share below %d is %d", (x, share) => {
  expect(normalCdf(x)).toBeCloseTo(share, 5);
  expect(normalCdf(-x)).toBeCloseTo(1 - share, 5);
});

test("both forms of the distribution function meet at six", () => {
  expect(normalCdf(-6.0000001) / normalCdf(-5.9999999)).toBeCloseTo(1, 5);
  // DLMF 7.17 and tables: Φ(−7) = 1.2798e−12.
  expect(normalCdf(-7)).toBeCloseTo(1.2798e-12, 15);
});

test("quantiles are those of the tables and of their own distribution", () => {
  expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6);
  expect(normalQuantile(0.5)).toBeCloseTo(0, 8);
  const centres = [-3, 0, 0.5, 4];
  const sds = [0.7, 0.5, 1, 2];
  const weights = [0.1, 0.4, 0.3, 0.2];
  const x = mixtureQuantile({ centres, sds, weights }, 0.9);
  expect(mixtureCdf({ centres, sds, weights }, x)).toBeCloseTo(0.9, 7);
  // A normal without weight is none.
  const one = { centres: [1, 50], sds: [2, 1], weights: [1, 0] };
  expect(mixtureQuantile(one, 0.975)).toBeCloseTo(1 + 2 * 1.959964, 5);
  expect(() => mixtureQuantile({ centres: [], sds: [], weights: [] }, 0.5)).toThrow(RangeError);
  expect(() => normalQuantile(1)).toThrow(RangeError);
});
