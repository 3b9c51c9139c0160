import { expect, test } from "vitest";
import { findRoot } from "./find-root.ts";
import { newtonInBracket } from "./newton-in-bracket.ts";

// Chandrupatla, Adv. Eng. Softw. 28 (1997) 145, table 1: functions with their brackets.
const cases: readonly [string, (x: number) => number, number, number, number][] = [
  ["x³ − 2x − 5", (x) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
  ["1 − 1/x²", (x) => 1 - 1 / x ** 2, 0.5, 1.51, 1],
  ["(x − 3)³", (x) => (x - 3) ** 3, 0, 5, 3],
  ["x⁹", (x) => x ** 9, -1, 4, 0],
  ["exp(x) − 2", (x) => Math.exp(x) - 2, -4, 4 / 3, Math.LN2],
];

for (const [name, f, from, to, root] of cases) {
  test(`finds the root of ${name} in either direction`, () => {
    for (const [a, b] of [
      [from, to],
      [to, from],
    ] as const) {
      const outcome = findRoot(f, a, b, { absoluteWidth: 1e-12 });
      if (outcome.kind !== "root") expect.fail(outcome.reason);
      // A flat root is only as sharp as the function's own rounding.
      expect(Math.abs(outcome.x - root)).toBeLessThan(f(root + 1e-5) < 1e-14 ? 1e-2 : 1e-11);
      expect(outcome.iterations).toBeLessThan(100);
    }
  });
}

test("answers at once when an end is the root", () => {
  expect(findRoot((x) => x, 0, 1)).toEqual({ kind: "root", x: 0, residual: 0, iterations: 0 });
  expect(findRoot((x) => x - 1, 0, 1)).toMatchObject({ kind: "root", x: 1 });
});

test("refuses a bracket without a change of sign, with the numbers", () => {
  expect(findRoot((x) => x * x + 1, -1, 2)).toEqual({
    kind: "failed",
    reason: "no-sign-change",
    at: 2,
    residual: 5,
    iterations: 0,
  });
});

test("reports a function that is not a number", () => {
  const outcome = findRoot((x) => (x > 0.2 && x < 0.8 ? Number.NaN : x - 0.5), 0, 1);
  expect(outcome).toMatchObject({ kind: "failed", reason: "not-finite" });
});

test("reports that it ran out of iterations", () => {
  const outcome = findRoot((x) => x ** 3 - 2, 0, 2, { maxIterations: 2 });
  expect(outcome).toMatchObject({ kind: "failed", reason: "too-many-iterations", iterations: 2 });
});

test("Newton in a bracket meets the root quickly", () => {
  const outcome = newtonInBracket((x) => ({ value: x * x - 2, slope: 2 * x }), [0, 2], 1);
  if (outcome.kind !== "root") expect.fail(outcome.reason);
  expect(outcome.x).toBeCloseTo(Math.SQRT2, 14);
  expect(outcome.iterations).toBeLessThan(8);
});

test("Newton in a bracket survives a step that would leave it", () => {
  // Newton alone diverges on the arc tangent from here.
  const outcome = newtonInBracket(
    (x) => ({ value: Math.atan(x), slope: 1 / (1 + x * x) }),
    [-10, 20],
    15,
  );
  if (outcome.kind !== "root") expect.fail(outcome.reason);
  expect(Math.abs(outcome.x)).toBeLessThan(1e-14);
});

test("Newton in a bracket reports a function that is not finite", () => {
  const outcome = newtonInBracket(() => ({ value: Infinity, slope: 1 }), [0, 1], 0.5);
  expect(outcome).toMatchObject({ kind: "failed", reason: "not-finite" });
});
