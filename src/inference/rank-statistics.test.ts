import { expect, test } from "vitest";
import { createRandom } from "../numerics/index.ts";
import { chiSquareTail, coverageOf, rankStatistics } from "./rank-statistics.ts";

// NIST/SEMATECH e-Handbook 1.3.6.7.4 (upper critical values of the chi-square distribution).
test.each([
  [1, 3.841, 0.05],
  [2, 5.991, 0.05],
  [9, 21.666, 0.01],
  [10, 18.307, 0.05],
  [19, 30.144, 0.05],
  [100, 124.342, 0.05],
])("with %d degrees of freedom %d is passed with a chance of %d", (degrees, x, chance) => {
  expect(chiSquareTail(x, degrees)).toBeCloseTo(chance, 4);
});

test("even ranks pass, ranks of posteriors that are too narrow do not", () => {
  const random = createRandom(3);
  const even = Array.from({ length: 1000 }, () => random());
  expect(rankStatistics(even).pValue).toBeGreaterThan(0.01);
  expect(coverageOf(even, 0.95)).toBeCloseTo(0.95, 1);
  const narrow = even.map((x) => (x < 0.5 ? x * x : 1 - (1 - x) ** 2));
  expect(rankStatistics(narrow).pValue).toBeLessThan(1e-6);
  expect(rankStatistics([0, 1, 0.5]).bins.reduce((sum, n) => sum + n)).toBe(3);
});
