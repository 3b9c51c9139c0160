import fc from "fast-check";
import { expect, test } from "vitest";
import { sampleCube } from "./shrinking-box.ts";
import { normalisedWeights, weightedQuantile } from "./weights.ts";

const options = { points: 1000, passes: 4, shift: 0.3 };
const bell = (u: Float64Array, mean: number, sd: number): number =>
  [...u].reduce(
    (sum, x) => sum - 0.5 * ((x - mean) / sd) ** 2 - Math.log(sd * Math.sqrt(2 * Math.PI)),
    0,
  );

test.each([
  [1, 0.01],
  [2, 0.02],
  [3, 0.03],
  [4, 0.05],
])("a normal density in %i dimensions has evidence 1 and its own quantiles", (d, sd) => {
  const samples = sampleCube(d, (u) => bell(u, 0.6, sd), options);
  expect(samples.logEvidence).toBeCloseTo(0, 1);
  const weights = normalisedWeights(samples.logWeights);
  const first = Float64Array.from(weights, (_, k) => samples.points[k * d] ?? 0);
  // Normal quantiles: NIST/SEMATECH e-Handbook 1.3.6.7.1.
  expect(Math.abs(weightedQuantile(first, weights, 0.975) - 0.6 - 1.96 * sd)).toBeLessThan(
    0.3 * sd,
  );
  expect(Math.abs(weightedQuantile(first, weights, 0.5) - 0.6)).toBeLessThan(0.15 * sd);
});

test("two far modes both keep their share", () => {
  const two = (u: Float64Array): number =>
    Math.log(0.7 * Math.exp(bell(u, 0.2, 0.02)) + 0.3 * Math.exp(bell(u, 0.8, 0.02)));
  const samples = sampleCube(2, two, options);
  const weights = normalisedWeights(samples.logWeights);
  let low = 0;
  weights.forEach((w, k) => {
    if ((samples.points[2 * k] ?? 0) < 0.5) low += w;
  });
  expect(low).toBeGreaterThan(0.6);
  expect(low).toBeLessThan(0.8);
});

test("nothing possible is said as no evidence, nonsense as an error", () => {
  expect(sampleCube(2, () => -Infinity, options).logEvidence).toBe(-Infinity);
  expect(() => sampleCube(1, () => NaN, options)).toThrow(RangeError);
});

test("weights are finite and points stay in the cube for any narrow likelihood", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 4 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 1e-6, max: 10, noNaN: true }),
      (d, mean, sd) => {
        const samples = sampleCube(d, (u) => bell(u, mean, sd), {
          points: 60,
          passes: 3,
          shift: 0,
        });
        expect(Number.isNaN(samples.logEvidence)).toBe(false);
        for (const x of samples.points) expect(x >= 0 && x <= 1).toBe(true);
      },
    ),
    { seed: 5, numRuns: 200 },
  );
});
