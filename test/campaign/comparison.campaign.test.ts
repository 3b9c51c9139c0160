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
  expect(survey.tallies.size).toBe(6);
  const outside = [...survey.tallies].flatMap(([what, { ranks }]) => {
    const held = coverageOf(ranks, 0.95);
    return held >= 0.93 && held <= 0.97 ? [] : [`${what} ${held.toFixed(3)}`];
  });
  const idle = survey.tallies.get("vent idle");
  expect(rms(idle?.errors ?? [])).toBeLessThanOrEqual(rms(idle?.rawErrors ?? []) / 3);
  expect(outside).toEqual([]);
  const uneven = [...survey.tallies].flatMap(([what, { ranks }]) =>
    rankStatistics(ranks).pValue > 0.001 ? [] : [what],
  );
  expect(uneven).toEqual([]);
});

test.each([0, 2])("with oddities of size %d", (size) => {
  const survey = surveyComparisons(200, 300_001, size);
  console.info(surveyText(survey));
  expect(survey.unanswered).toBeLessThanOrEqual(2);
});
