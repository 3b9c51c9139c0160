import { expect, test } from "vitest";
import { createRandom } from "./random.ts";

test("the same seed gives the same sequence, another seed another one", () => {
  const [a, b, c] = [createRandom(5), createRandom(5), createRandom(6)];
  const first = Array.from({ length: 50 }, a);
  expect(Array.from({ length: 50 }, b)).toEqual(first);
  expect(Array.from({ length: 50 }, c)).not.toEqual(first);
});

test("numbers are uniform in [0, 1)", () => {
  const random = createRandom(1);
  const counts = Array.from({ length: 20 }, () => 0);
  const total = 200_000;
  for (let k = 0; k < total; k++) {
    const u = random();
    if (!(u >= 0 && u < 1)) expect.fail(`${String(u)} is outside`);
    const bin = Math.floor(u * 20);
    counts[bin] = (counts[bin] ?? 0) + 1;
  }
  const expected = total / 20;
  const chi2 = counts.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
  // 99.9 % of uniform samples stay below this χ² with 19 degrees of freedom.
  expect(chi2).toBeLessThan(43.8);
});

test("refuses a seed that is no number", () => {
  expect(() => createRandom(Number.NaN)).toThrow(RangeError);
});
