import { expect, test } from "vitest";
import { createRandom, fitApproach, normal } from "./index.ts";

const times = (n: number) => Float64Array.from({ length: n }, (_, i) => i);

test("an exact approach is found again", () => {
  const t = times(600);
  const fit = fitApproach(
    t,
    t.map((x) => 5 - 18 * Math.exp(-x / 110)),
  );
  expect(fit.kind).toBe("fitted");
  if (fit.kind !== "fitted") return;
  expect(fit.end).toBeCloseTo(5, 5);
  expect(fit.amplitude).toBeCloseTo(-18, 4);
  expect(fit.tau).toBeCloseTo(110, 3);
});

test("the end's stated variance is the one repeated records show", () => {
  const random = createRandom(3);
  const t = times(400);
  const ends: number[] = [];
  let stated = 0;
  for (let k = 0; k < 200; k++) {
    const fit = fitApproach(
      t,
      t.map((x) => 4 + 9 * Math.exp(-x / 80) + 0.5 * normal(random)),
    );
    if (fit.kind !== "fitted") throw new Error(fit.reason);
    ends.push(fit.end);
    stated += Math.sqrt(fit.endVarianceFactor) * 0.5;
  }
  const m = ends.reduce((a, b) => a + b, 0) / ends.length;
  const sd = Math.sqrt(ends.reduce((a, b) => a + (b - m) ** 2, 0) / (ends.length - 1));
  expect(sd / (stated / ends.length)).toBeGreaterThan(0.85);
  expect(sd / (stated / ends.length)).toBeLessThan(1.15);
});

test("a line, a constant and a handful have no end to tell", () => {
  const t = times(200);
  expect(fitApproach(t, t).kind).toBe("undetermined");
  expect(
    fitApproach(
      t,
      t.map(() => 3),
    ).kind,
  ).toBe("undetermined");
  expect(fitApproach([0, 1, 2], [3, 2, 1])).toMatchObject({ reason: "too-few" });
  expect(() => fitApproach([0, 1], [1])).toThrow(RangeError);
});
