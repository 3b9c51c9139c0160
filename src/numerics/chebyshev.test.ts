import { expect, test } from "vitest";
import { chebyshevFit, chebyshevNodes, clenshaw } from "./chebyshev.ts";
import { evaluateAt, fitPiecewise, intervalOf } from "./piecewise-chebyshev.ts";

test("an expansion reproduces a polynomial of its degree anywhere", () => {
  const f = (x: number): number => 3 - x + 2 * x ** 3 - x ** 5;
  const coefficients = chebyshevFit(chebyshevNodes(5, -1, 1).map(f));
  for (const x of [-1, -0.3, 0, 0.77, 1]) {
    expect(clenshaw(coefficients, 0, 6, x)).toBeCloseTo(f(x), 13);
  }
});

test("coefficients of a Chebyshev polynomial are a single one", () => {
  // T_3 = 4x³ − 3x: Abramowitz and Stegun, table 22.3.
  const coefficients = chebyshevFit(chebyshevNodes(4, -1, 1).map((x) => 4 * x ** 3 - 3 * x));
  expect([...coefficients].map((c) => Math.round(c * 1e14) / 1e14 + 0)).toEqual([0, 0, 0, 1, 0]);
});

test("nodes run from the upper end to the lower one", () => {
  expect([...chebyshevNodes(2, 10, 20)]).toEqual([20, 15, 10]);
});

test("refuses to expand a single value", () => {
  expect(() => chebyshevFit(new Float64Array(1))).toThrow(RangeError);
});

test("pieces are halved until every function is met", () => {
  const expansion = fitPiecewise((x) => [Math.sqrt(x), Math.exp(x)], [0.001, 4], {
    degree: 8,
    narrowest: 1e-6,
    tolerances: () => [1e-10, 1e-10],
  });
  expect(expansion.breaks.length).toBeGreaterThan(3);
  for (let k = 0; k <= 1000; k++) {
    const x = 0.001 + (3.999 * k) / 1000;
    const place = intervalOf(expansion.breaks, x);
    const [root, power] = expansion.tables.map((table) => evaluateAt(expansion, table, place, x));
    expect(Math.abs((root ?? 0) - Math.sqrt(x))).toBeLessThan(3e-10);
    expect(Math.abs((power ?? 0) - Math.exp(x))).toBeLessThan(3e-10);
  }
});

test("pieces stop at the narrowest width when a function cannot be met", () => {
  const step = fitPiecewise((x) => [x < 0.3 ? 0 : 1], [0, 1], {
    degree: 4,
    narrowest: 0.1,
    tolerances: () => [1e-10],
  });
  expect(Math.min(...step.breaks.slice(1).map((x, k) => x - (step.breaks[k] ?? 0)))).toBe(0.125);
});

test("the interval of a place outside is the nearest one", () => {
  const breaks = Float64Array.from([0, 1, 3]);
  expect([-1, 0, 0.5, 1, 2.9, 3, 7].map((x) => intervalOf(breaks, x))).toEqual([
    0, 0, 0, 1, 1, 1, 1,
  ]);
});
