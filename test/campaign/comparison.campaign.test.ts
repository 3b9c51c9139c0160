// Simulation-based calibration of the comparison in equal conditions: a thousand hidden trials whose vehicles have
// physics that the fitted model lacks. The short form is test/comparison/comparison.test.ts.
import { expect, test } from "vitest";
import { coverageOf, rankStatistics } from "../../src/inference/index.ts";
import { rms, surveyComparisons, surveyText } from "../comparison/coverage-survey.ts";

const count = 1000;
/** Known to be too wide, docs/models/comparison.md: all coverage on the road's low side, half of it on the road's vent. */
const tooWide = ["low road"];
const unevenRanks = ["low road", "vent road"];

test(`${String(count)} hidden trials`, () => {
  const survey = surveyComparisons(count, 100_001);
  console.info(surveyText(survey));
  expect(survey.unanswered).toBeLessThanOrEqual(count / 100);
  expect(survey.tallies.size).toBe(6);
  const idle = survey.tallies.get("vent idle");
  expect(rms(idle?.errors ?? [])).toBeLessThanOrEqual(rms(idle?.rawErrors ?? []) / 3);
  const tallies = [...survey.tallies].map(([what, { ranks }]) => ({ what, ranks }));
  const held = tallies.map(({ what, ranks }) => ({ what, share: coverageOf(ranks, 0.95) }));
  expect(held.filter(({ share }) => share < 0.93)).toEqual([]);
  expect(held.filter(({ what, share }) => share > 0.97 && !tooWide.includes(what))).toEqual([]);
  const uneven = tallies.filter(({ ranks }) => rankStatistics(ranks).pValue <= 0.001);
  expect(uneven.filter(({ what }) => !unevenRanks.includes(what))).toEqual([]);
});

test.each([0, 2])("with oddities of size %d", (size) => {
  const survey = surveyComparisons(200, 300_001, size);
  console.info(surveyText(survey));
  expect(survey.unanswered).toBeLessThanOrEqual(2);
});
