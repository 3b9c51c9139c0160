import { expect, test } from "vitest";
import { createRandom, normal } from "../numerics/index.ts";
import { choleskyFactor, conditionedOn, logDensity, secantMoments, separation } from "./index.ts";

test("a straight line and a parabola of a standard normal: exact means, variance of the line", () => {
  const line = (x: number, z: number) => [2 + 3 * x - z, 1 + 0.5 * z];
  const pairs = [
    { up: line(1, 0), down: line(-1, 0) },
    { up: line(0, 1), down: line(0, -1) },
  ];
  const { mean, covariance } = secantMoments(line(0, 0), pairs);
  expect([...mean]).toEqual([2, 1]);
  expect([...covariance]).toEqual([10, -0.5, -0.5, 0.25]);
  const bent = secantMoments([1], [{ up: [1 + 2 + 0.5], down: [1 - 2 + 0.5] }]);
  // E(1 + 2x + x²/2) = 1.5
  expect(bent.mean[0]).toBeCloseTo(1.5, 12);
});

test("a missing side takes the slope of the other; with none nothing is added", () => {
  const one = secantMoments([1], [{ up: [3], down: undefined }]);
  expect([one.mean[0], one.covariance[0]]).toEqual([1, 4]);
  const none = secantMoments([1], [{ up: undefined, down: undefined }]);
  expect([none.mean[0], none.covariance[0]]).toEqual([1, 0]);
});

test("density of the standard normal, one and two dimensions", () => {
  // φ(0) = 0.39894, φ(1) = 0.24197: standard tables (NIST/SEMATECH e-Handbook 1.3.6.7.1).
  const one = { mean: Float64Array.of(0), covariance: Float64Array.of(1) };
  expect(Math.exp(logDensity(one, [0]))).toBeCloseTo(0.39894, 5);
  expect(Math.exp(logDensity(one, [1]))).toBeCloseTo(0.24197, 5);
  const two = { mean: Float64Array.of(0, 0), covariance: Float64Array.of(1, 0, 0, 1) };
  expect(Math.exp(logDensity(two, [0, 1]))).toBeCloseTo(0.39894 * 0.24197, 5);
  expect(logDensity({ mean: one.mean, covariance: Float64Array.of(-1) }, [0])).toBe(-Infinity);
});

test("conditioning: a reading as wide as the prior halves its variance and meets it half way", () => {
  const prior = { mean: Float64Array.of(0, 0), covariance: Float64Array.of(4, 2, 2, 4) };
  const after = conditionedOn(prior, [0], [2], Float64Array.of(4));
  for (const [i, value] of [1, 0.5].entries()) expect(after.mean[i]).toBeCloseTo(value, 12);
  for (const [i, value] of [2, 1, 1, 3.5].entries()) {
    expect(after.covariance[i]).toBeCloseTo(value, 12);
  }
});

test("directions of a covariance give it back in samples", () => {
  const covariance = Float64Array.of(2, 0.6, 0.6, 0.5);
  const columns = choleskyFactor(2, covariance) ?? [];
  const random = createRandom(3);
  let cross = 0;
  const count = 40_000;
  for (let k = 0; k < count; k++) {
    const z = columns.map(() => normal(random));
    const [x, y] = [0, 1].map((i) =>
      columns.reduce((sum, c, j) => sum + (c[i] ?? 0) * (z[j] ?? 0), 0),
    );
    cross += ((x ?? 0) * (y ?? 0)) / count;
  }
  expect(cross).toBeCloseTo(0.6, 1);
  expect(choleskyFactor(2, Float64Array.of(1, 2, 2, 1))).toBeUndefined();
});

test("separation: nothing for the same, the whole choice for what lies far apart", () => {
  const at = (mean: number) => [{ weight: 1, mean, sd: 1 }];
  expect(separation(at(0), at(0), 0.5)).toBeCloseTo(0, 9);
  expect(separation(at(0), at(40), 0.5)).toBeCloseTo(1, 6);
  // Binary input on a Gaussian channel of means ±1, deviation 1: 0.4859 bit (standard result, from memory).
  expect(separation(at(-1), at(1), 0.5)).toBeCloseTo(0.486, 3);
  expect(separation(at(0), at(9), 1)).toBe(0);
});
