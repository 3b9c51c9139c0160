import { expect, test } from "vitest";
import { logNormal, logNormalVector } from "./normal-vector.ts";

test("a vector with independent parts has the sum of their log densities", () => {
  const log = logNormalVector(2, Float64Array.of(4, 0, 0, 9), Float64Array.of(1, -3));
  expect(log).toBeCloseTo(logNormal(1, 0, 2) + logNormal(-3, 0, 3), 12);
});

test("correlation counts: two by two against the written-out density", () => {
  const [s1, s2, r, x, y] = [2, 3, 0.8, 1.5, 2.5];
  const c = r * s1 * s2;
  const log = logNormalVector(2, Float64Array.of(s1 ** 2, c, c, s2 ** 2), Float64Array.of(x, y));
  // Bivariate normal density: NIST/SEMATECH e-Handbook 6.5.4.2.
  const q = ((x / s1) ** 2 - (2 * r * x * y) / (s1 * s2) + (y / s2) ** 2) / (1 - r ** 2);
  expect(log).toBeCloseTo(-Math.log(2 * Math.PI * s1 * s2 * Math.sqrt(1 - r ** 2)) - q / 2, 12);
});

test("a covariance that is none has no density", () => {
  expect(logNormalVector(2, Float64Array.of(1, 0, 2, 1), Float64Array.of(0, 0))).toBe(-Infinity);
});
