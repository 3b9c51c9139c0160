import { expect, test } from "vitest";
import { expectedInformation } from "./expected-information.ts";
import { calibrationError, reliabilityTable } from "./reliability.ts";
import {
  cubicBasis,
  cubicTerms,
  evaluateCubic,
  fitCubics,
  simplexLattice,
} from "./simplex-polynomial.ts";

const coin = (yes: readonly number[]) =>
  expectedInformation<boolean>({
    weights: [0.5, 0.5],
    hypothesis: [0, 1],
    hypotheses: 2,
    outcomes: [
      { outcome: true, weight: ((yes[0] ?? 0) + (yes[1] ?? 0)) / 2 },
      { outcome: false, weight: 1 - ((yes[0] ?? 0) + (yes[1] ?? 0)) / 2 },
    ],
    logDensity: (outcome, k) => Math.log(outcome ? (yes[k] ?? 0) : 1 - (yes[k] ?? 0)),
  });

test("a sure test of two equal chances says ln 2, a useless one nothing", () => {
  expect(coin([1, 0])).toBeCloseTo(Math.LN2, 12);
  expect(coin([0.3, 0.3])).toBeCloseTo(0, 12);
});

test("a noisy test says the capacity of the symmetric channel", () => {
  // Shannon 1948, section 15: 1 − H(0.1) bit = 0.5310 bit.
  expect(coin([0.9, 0.1]) / Math.LN2).toBeCloseTo(0.531, 4);
});

test("a reliability table counts what came true in each class", () => {
  const forecasts = Array.from({ length: 100 }, (_, k) => ({
    probability: k < 50 ? 0.2 : 0.8,
    happened: k < 50 ? k < 10 : k < 85,
  }));
  const rows = reliabilityTable(forecasts, [0, 0.5, 1]);
  expect(rows.map(({ count, observed }) => [count, observed])).toEqual([
    [50, 0.2],
    [50, 0.7],
  ]);
  expect(calibrationError(rows)).toBeCloseTo(0.05, 12);
});

test("cubics over a simplex give back the cubic that made the values", () => {
  const points = simplexLattice(3, 5, 0.01);
  const truth = (x: readonly number[]) =>
    1 + 2 * (x[0] ?? 0) - (x[1] ?? 0) * (x[0] ?? 0) + 3 * (x[1] ?? 0) ** 3;
  const fit = fitCubics(points, [points.map(truth)]);
  if (!fit) throw new Error("no fit");
  const basis = new Float64Array(cubicTerms(3));
  const x = [0.31, 0.27, 0.42];
  cubicBasis(x, 3, basis);
  expect(evaluateCubic(fit, 0, basis, cubicTerms(3))).toBeCloseTo(truth(x), 6);
  for (const point of points) expect(point.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
});

test("points that cannot fix a cubic are refused or held by the ridge, never NaN", () => {
  const fit = fitCubics([[0.5, 0.5]], [[2]]);
  if (fit) for (const coefficient of fit) expect(Number.isFinite(coefficient)).toBe(true);
});
