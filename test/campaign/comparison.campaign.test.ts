// Simulation-based calibration of the comparison in equal conditions: a thousand hidden trials whose vehicles have
// physics that the fitted model lacks. The short form is test/comparison/comparison.test.ts. In pieces: SURVEYS names a
// folder in which each piece (-t "piece 3") leaves its trials; the last tests take what is there.
import { expect, test } from "vitest";
import { errorSizes } from "../../src/evidence/comparison/errors.ts";
import { coverageOf, rankStatistics } from "../../src/inference/index.ts";
import {
  mergedSurvey,
  rms,
  type Survey,
  surveyComparisons,
  surveyText,
} from "../comparison/coverage-survey.ts";
import { discrepancyOf, leftOutText, surveyLeftOut } from "../comparison/left-out.ts";
import { keptSurvey } from "../comparison/kept-survey.ts";
import { plansText, surveyPlans } from "../comparison/planned-trials.ts";

const pieces = [0, 1, 2, 3, 4];
const each = 200;
/** Seeds on which nothing was chosen. */
const first = 6_100_001;
const apart = 10_000;

const made = new Map<number, Survey>();
function pieceOf(piece: number): Survey {
  const survey =
    made.get(piece) ??
    keptSurvey(`hidden-${piece}`, () => surveyComparisons(each, first + apart * piece));
  made.set(piece, survey);
  return survey;
}
const whole = (): Survey => mergedSurvey(pieces.map(pieceOf));

test.each(pieces)("hidden trials, piece %d", (piece) => {
  expect(pieceOf(piece).unanswered).toBeLessThanOrEqual(each / 50);
});

test("hidden trials: intervals hold what they say, ranks are even, most of the raw error is gone", () => {
  const survey = whole();
  console.info(surveyText(survey));
  expect(survey.unanswered).toBeLessThanOrEqual((pieces.length * each) / 100);
  expect(survey.tallies.size).toBe(6);
  const idle = survey.tallies.get("vent idle");
  expect(rms(idle?.errors ?? [])).toBeLessThanOrEqual(rms(idle?.rawErrors ?? []) / 3);
  const tallies = [...survey.tallies].map(([what, { ranks }]) => ({ what, ranks }));
  const held = tallies.map(({ what, ranks }) => ({ what, share: coverageOf(ranks, 0.95) }));
  expect(held.filter(({ share }) => share < 0.93 || share > 0.97)).toEqual([]);
  const even = tallies.map(({ what, ranks }) => ({ what, p: rankStatistics(ranks).pValue }));
  expect(even.filter(({ p }) => p <= 0.01)).toEqual([]);
});

test("hidden trials: effects carried to standard conditions", () => {
  const held = [...whole().standard].map(([what, { inside }]) => ({
    what,
    share: inside.filter(Boolean).length / inside.length,
  }));
  expect(held).toHaveLength(12);
  expect(held.filter(({ share }) => share < 0.93 || share > 0.97)).toEqual([]);
});

test("what the model leaves out is about as large as the comparison takes it to be", () => {
  const found = surveyLeftOut(250, 700_001);
  console.info(leftOutText(found));
  const sizes = ["vent idle", "vent road", "vent road flooded", "high road"].map((what) => {
    const left = found.get(what);
    if (!left) throw new Error(`no ${what}`);
    const quantity = what.startsWith("vent") ? "vent" : "high";
    return discrepancyOf(left) / errorSizes[quantity].discrepancy;
  });
  for (const ratio of sizes) {
    expect(ratio).toBeGreaterThan(0.8);
    expect(ratio).toBeLessThan(1.25);
  }
});

test.each([0, 2])("with oddities of size %d", (size) => {
  const survey = keptSurvey(`oddities-${size}`, () => surveyComparisons(200, 6_300_001, size));
  console.info(surveyText(survey));
  expect(survey.unanswered).toBeLessThanOrEqual(4);
});

test.each([1, 3])("plans of %d runs find what they say in four of five trials", (repeats) => {
  const plans = surveyPlans({ count: 150, from: 6_510_001, repeats });
  console.info(plansText(plans));
  const shares = [...plans.found].map(([what, { hits, of }]) => ({ what, share: hits / of }));
  expect(shares).toHaveLength(6);
  expect(shares.filter(({ share }) => share < 0.7 || share > 0.9)).toEqual([]);
});
