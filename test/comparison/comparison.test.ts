// A small sample of the campaign in test/campaign/comparison.campaign.test.ts.
import { expect, test } from "vitest";
import { coverageOf } from "../../src/inference/index.ts";
import { rms, surveyComparisons } from "./coverage-survey.ts";

test("hidden trials: intervals hold their truths, and most of the raw error is gone", () => {
  const { tallies, unanswered } = surveyComparisons(10, 1, 1, 48);
  expect(unanswered).toBe(0);
  const idle = tallies.get("vent idle");
  if (!idle) throw new Error("idle runs were made");
  expect(rms(idle.errors)).toBeLessThan(rms(idle.rawErrors) / 2.5);
  const all = [...tallies.values()].flatMap(({ ranks }) => ranks);
  // 60 intervals, six a trial: fewer than 52 inside of 95 % would be one in some thousands even if they go together.
  expect(coverageOf(all, 0.95)).toBeGreaterThanOrEqual(52 / 60);
});
