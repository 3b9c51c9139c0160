import { expect, test } from "vitest";
import { createRandom, normal } from "../numerics/index.ts";
import { coverageOf } from "./rank-statistics.ts";
import {
  createLeastSquaresWork,
  fitLeastSquares,
  type LeastSquaresProblem,
} from "./least-squares.ts";
import { normalCdf } from "./normal-distribution.ts";

const at = (values: ArrayLike<number>, i: number): number => values[i] ?? NaN;

const fit = (problem: LeastSquaresProblem) => {
  const found = fitLeastSquares(
    problem,
    createLeastSquaresWork(problem.unknowns, problem.residuals),
  );
  if (found.kind === "failed") throw new Error(found.at);
  return found;
};

test("a straight line has the posterior of linear Gaussian theory", () => {
  // y = a + b x at x = 0, 1 with σ = 0.5: (JᵀJ + 1)⁻¹ of J = [[2, 0], [2, 2]] by hand is [[5, -4], [-4, 9]]/29.
  const data = [1, 3];
  const found = fit({
    unknowns: 2,
    residuals: 2,
    evaluate(u, r) {
      r[0] = (at(u, 0) - at(data, 0)) / 0.5;
      r[1] = (at(u, 0) + at(u, 1) - at(data, 1)) / 0.5;
      return true;
    },
  });
  [5 / 29, -4 / 29, -4 / 29, 9 / 29].forEach((value, i) => {
    expect(found.covariance[i]).toBeCloseTo(value, 6);
  });
  // u = covariance · Jᵀ y/σ² with Jᵀy/σ = [16, 12]: (80 − 48)/29, (−64 + 108)/29.
  expect(found.u[0]).toBeCloseTo(32 / 29, 3);
  expect(found.u[1]).toBeCloseTo(44 / 29, 3);
});

test("a curved valley is followed to its end", () => {
  const found = fit({
    unknowns: 2,
    residuals: 2,
    evaluate(u, r) {
      r[0] = 1000 * (at(u, 1) - at(u, 0) ** 2);
      r[1] = 1000 * (1 - at(u, 0));
      return true;
    },
  });
  expect(found.u[0]).toBeCloseTo(1, 3);
  expect(found.u[1]).toBeCloseTo(1, 3);
});

test("where the model has no answer the fit stays on this side, and says so at the start", () => {
  const found = fit({
    unknowns: 1,
    residuals: 1,
    evaluate(u, r) {
      r[0] = 50 * (at(u, 0) - 2);
      return at(u, 0) < 1.5;
    },
  });
  expect(found.u[0]).toBeLessThan(1.5);
  const none = { unknowns: 1, residuals: 1, evaluate: () => false };
  expect(fitLeastSquares(none, createLeastSquaresWork(1, 1)).kind).toBe("failed");
  expect(() => fitLeastSquares(none, createLeastSquaresWork(2, 1))).toThrow(RangeError);
});

test("intervals of a bent model hold the truths that they say", () => {
  const random = createRandom(11);
  const ranks = Array.from({ length: 400 }, () => {
    const truth = normal(random);
    const data = [0.3, 0.6, 0.9].map((x) => Math.exp(x * truth) + 0.1 * normal(random));
    const found = fit({
      unknowns: 1,
      residuals: 3,
      evaluate(u, r) {
        data.forEach((y, i) => (r[i] = (Math.exp(0.3 * (i + 1) * at(u, 0)) - y) / 0.1));
        return true;
      },
    });
    return normalCdf((truth - at(found.u, 0)) / Math.sqrt(at(found.covariance, 0)));
  });
  expect(coverageOf(ranks, 0.95)).toBeGreaterThan(0.92);
  expect(coverageOf(ranks, 0.95)).toBeLessThan(0.98);
});
