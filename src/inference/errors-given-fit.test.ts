import { expect, test } from "vitest";
import { createRandom, normal } from "../numerics/index.ts";
import {
  type ErrorGroup,
  errorsGivenFit,
  proposalAround,
  weightedError,
} from "./errors-given-fit.ts";
import { conditionedOn } from "./gaussian.ts";
import { createLeastSquaresWork, fitLeastSquares } from "./least-squares.ts";

// A straight model of two unknowns: data 0 to 3 are fitted, 4 is not; 0, 1 and 4 go together.
const slopes = [1, 0.5, 0.4, -1, 2, 1, 0, 1.5, 1, 1];
const groups: ErrorGroup[] = [
  {
    at: [0, 1, 4],
    fixed: Float64Array.of(0.5, 0.1, 0.2, 0.1, 0.4, 0.1, 0.2, 0.1, 0.6),
    likeness: Float64Array.of(1, 0.7, 0.3, 0.7, 1, 0.5, 0.3, 0.5, 1),
  },
  { at: [2, 3], fixed: Float64Array.of(0.3, 0, 0, 0.3), likeness: Float64Array.of(1, 0, 0, 1) },
];
const sizes = [0.6, 0.5, 0.2, 0.1, 0.7];
const values = [1.2, -0.4, 2.1, 0.3];
const sigma = [1, 0.8, 0.6, 0.6];
const data = [0, 1, 2, 3];
const of = (list: ArrayLike<number>, at: number): number => list[at] ?? NaN;
const misfitAt = (u: ArrayLike<number>): number[] =>
  values.map((y, i) => y - of(slopes, 2 * i) * of(u, 0) - of(slopes, 2 * i + 1) * of(u, 1));

const fitted = fitLeastSquares(
  {
    unknowns: 2,
    residuals: 4,
    evaluate(u, r) {
      misfitAt(u).forEach((misfit, i) => {
        r[i] = -misfit / of(sigma, i);
      });
      return true;
    },
  },
  createLeastSquaresWork(2, 4),
);
if (fitted.kind === "failed") throw new Error("it fits");
const { u, covariance, jacobian } = fitted;
const gain = Float64Array.from({ length: 8 }, (_, at) => {
  const [k, i] = [Math.floor(at / 4), at % 4];
  const along = (n: number): number => of(covariance, 2 * k + n) * of(jacobian, 2 * i + n);
  return (along(0) + along(1)) / of(sigma, i);
});
const fit = { data, gain, unknowns: 2 };
const square = (x: Float64Array): number => x.reduce((sum, each) => sum + each ** 2, 0);

test("where the model is straight, draws from the proposal all weigh the same", () => {
  const random = createRandom(3);
  const proposal = proposalAround(u, covariance, groups, sizes, fit);
  const logs = Array.from({ length: 20 }, () => {
    const z = Float64Array.of(normal(random), normal(random));
    const drawn = proposal.draw(misfitAt(u), z);
    const { logDensity } = errorsGivenFit(groups, sizes, fit, misfitAt(drawn));
    return logDensity + (square(z) - square(drawn)) / 2;
  });
  expect(Math.max(...logs) - Math.min(...logs)).toBeLessThan(1e-4);
});

/** Covariance of two errors, written out. */
const covarianceOf = (i: number, j: number): number =>
  groups.reduce((sum, { at, fixed, likeness }) => {
    const [a, b] = [at.indexOf(i), at.indexOf(j)];
    if (a < 0 || b < 0) return sum;
    const k = a * at.length + b;
    return sum + of(fixed, k) + of(sizes, i) * of(sizes, j) * of(likeness, k);
  }, 0);

test("an error given the fit is a normal distribution conditioned on the fit's answer", () => {
  const weights = new Map([
    [4, 1],
    [0, -0.5],
    [2, -0.5],
  ]);
  // The weighted error and both answers together, conditioned by another routine.
  const rows = [
    [0, 1, 2, 3, 4].map((i) => weights.get(i) ?? 0),
    [...gain.subarray(0, 4), 0],
    [...gain.subarray(4, 8), 0],
  ];
  const joint = rows.flatMap((p) =>
    rows.map((q) =>
      p.reduce(
        (sum, a, i) => sum + q.reduce((part, b, j) => part + a * b * covarianceOf(i, j), 0),
        0,
      ),
    ),
  );
  const misfit = misfitAt([0.2, 0.1]);
  const answers = rows
    .slice(1)
    .map((row) => misfit.reduce((sum, each, i) => sum + each * of(row, i), 0));
  const { mean, covariance: left } = conditionedOn(
    { mean: new Float64Array(3), covariance: Float64Array.from(joint) },
    [1, 2],
    answers,
    new Float64Array(4),
  );
  const found = weightedError(groups, weights, errorsGivenFit(groups, sizes, fit, misfit));
  expect(found.mean).toBeCloseTo(of(mean, 0), 4);
  expect(found.variance).toBeCloseTo(of(left, 0), 4);
});
