import fc from "fast-check";
import { expect, test } from "vitest";
import { randomEffects } from "./random-effects.ts";
import { studentHalfWidth, studentWithin } from "./student-t.ts";

// Two-sided 95 % points of Student's t: NIST/SEMATECH e-Handbook 1.3.6.7.2.
test.each([
  [1, 12.706],
  [2, 4.303],
  [3, 3.182],
  [4, 2.776],
  [5, 2.571],
  [10, 2.228],
  [30, 2.042],
  [100, 1.984],
])("Student's t with %i degrees of freedom reaches %f", (degrees, printed) => {
  const t = studentHalfWidth(0.95, degrees);
  expect(Math.abs(t - printed)).toBeLessThan(5e-4);
  expect(studentWithin(t, degrees)).toBeCloseTo(0.95, 12);
});

// Thirteen trials of a vaccine: cases and others, treated and control. Colditz et al., JAMA 271 (1994) 698.
const trials = [
  [4, 119, 11, 128],
  [6, 300, 29, 274],
  [3, 228, 11, 209],
  [62, 13536, 248, 12619],
  [33, 5036, 47, 5761],
  [180, 1361, 372, 1079],
  [8, 2537, 10, 619],
  [505, 87886, 499, 87892],
  [29, 7470, 45, 7232],
  [17, 1699, 65, 1600],
  [186, 50448, 141, 27197],
  [5, 2493, 3, 2338],
  [27, 16886, 29, 17825],
] as const;
const logRiskRatios = trials.map(([a, b, c, d]) => ({
  effect: Math.log(a / (a + b) / (c / (c + d))),
  u: Math.sqrt(1 / a - 1 / (a + b) + 1 / c - 1 / (c + d)),
}));

test("the vaccine trials scatter as printed", () => {
  const summary = randomEffects(logRiskRatios);
  // Viechtbauer, J. Stat. Softw. 36(3) (2010): Q(12) = 152.2330; Paule-Mandel τ² 0.318 is from memory of its manual.
  expect(summary.Q).toBeCloseTo(152.233, 3);
  expect(summary.tau ** 2).toBeCloseTo(0.318, 3);
  expect(summary.heterogeneity).toBeCloseTo(1 - 12 / 152.233, 6);
  expect(summary.mean).toBeCloseTo(-0.715, 2);
  expect(summary.pHomogeneous).toBeLessThan(1e-20);
});

test("studies that agree pool like repeated readings, two keep a wide interval", () => {
  const summary = randomEffects([
    { effect: 1, u: 0.3 },
    { effect: 1, u: 0.3 },
  ]);
  expect(summary).toMatchObject({ mean: 1, tau: 0, heterogeneity: 0, pHomogeneous: 1 });
  expect(summary.se).toBeCloseTo(0.3 / Math.SQRT2, 12);
  expect(summary.interval.to - 1).toBeCloseTo((12.706 * 0.3) / Math.SQRT2, 3);
  expect(summary.prediction).toBeUndefined();
});

const studies = fc.array(
  fc.record({
    effect: fc.double({ min: -20, max: 20, noNaN: true }),
    u: fc.double({ min: 0.01, max: 10, noNaN: true }),
  }),
  { minLength: 2, maxLength: 12 },
);

test("the mean lies among the studies, whatever their order, and moves with all of them", () => {
  fc.assert(
    fc.property(studies, fc.double({ min: -50, max: 50, noNaN: true }), (list, shift) => {
      const one = randomEffects(list);
      const effects = list.map(({ effect }) => effect);
      expect(one.mean).toBeGreaterThanOrEqual(Math.min(...effects) - 1e-9);
      expect(one.mean).toBeLessThanOrEqual(Math.max(...effects) + 1e-9);
      expect(randomEffects([...list].reverse()).mean).toBeCloseTo(one.mean, 6);
      const moved = randomEffects(list.map(({ effect, u }) => ({ effect: effect + shift, u })));
      expect(moved.mean).toBeCloseTo(one.mean + shift, 5);
      expect(moved.tau).toBeCloseTo(one.tau, 5);
    }),
    { numRuns: 200, seed: 5 },
  );
});

test("one study is no summary", () => {
  expect(() => randomEffects([{ effect: 1, u: 1 }])).toThrow(RangeError);
  expect(() =>
    randomEffects([
      { effect: 1, u: 1 },
      { effect: NaN, u: 1 },
    ]),
  ).toThrow(RangeError);
});
