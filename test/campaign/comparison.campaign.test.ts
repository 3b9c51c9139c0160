// Simulation-based calibration of the comparison in equal conditions: a thousand hidden trials whose vehicles have
// physics that the fitted model lacks. The short form is test/comparison/comparison.test.ts.
import { expect, test } from "vitest";
import { coverageOf, rankStatistics } from "../../src/inference/index.ts";
import { rms, surveyComparisons, surveyText } from "../comparison/coverage-survey.ts";

const count = 1000;

test(`${String(count)} hidden trials`, () => {
  const survey = surveyComparisons(count, 100_001);
  console.info(surveyText(survey));
  expect(survey.unanswered).toBeLessThanOrEqual(count / 100);
  const idle = survey.tallies.get("vent idle");
  const road = survey.tallies.get("vent road");
  for (const tally of [idle, road]) {
    expect(coverageOf(tally?.ranks ?? [], 0.95)).toBeGreaterThanOrEqual(0.93);
    expect(coverageOf(tally?.ranks ?? [], 0.95)).toBeLessThanOrEqual(0.97);
  }
  expect(rankStatistics(idle?.ranks ?? []).pValue).toBeGreaterThan(0.001);
  expect(rms(idle?.errors ?? [])).toBeLessThanOrEqual(rms(idle?.rawErrors ?? []) / 3);
});

test.each([0, 2])("with oddities of size %d", (size) => {
  const survey = surveyComparisons(200, 300_001, size);
  console.info(surveyText(survey));
  expect(survey.unanswered).toBeLessThanOrEqual(2);
});
