import { expect, test } from "vitest";
import { effectiveSamples } from "../../inference/index.ts";
import { resampled, temperedWeights } from "./resample.ts";

test("samples are kept in proportion to their weights, rounded up or down", () => {
  const weights = Float64Array.of(0.5, 0, 0.34, 0.16);
  for (const start of [0, 0.3, 0.99]) {
    const kept = resampled(weights, 10, start);
    expect(kept).toHaveLength(10);
    const times = [0, 1, 2, 3].map((place) => kept.filter((each) => each === place).length);
    times.forEach((count, place) => {
      expect(Math.abs(count - 10 * (weights[place] ?? 0))).toBeLessThan(1);
    });
  }
});

test("weights that rest on enough stay as they are; others are brought nearer, in their order", () => {
  const even = Array.from({ length: 100 }, (_, k) => Math.sin(k) / 4);
  const [a = 0, b = 0] = temperedWeights(even);
  expect(Math.log(b / a)).toBeCloseTo((even[1] ?? 0) - (even[0] ?? 0), 9);
  const steep = Array.from({ length: 100 }, (_, k) => -3 * k);
  const weights = temperedWeights(steep);
  expect(effectiveSamples(weights)).toBeGreaterThanOrEqual(40);
  expect([...weights].sort((x, y) => y - x)).toEqual([...weights]);
});
