// A small sample of what test/campaign/comparison.campaign.test.ts asks of plans.
import { expect, test } from "vitest";
import { surveyPlans } from "./planned-trials.ts";

test("a plan's smallest difference is found in most trials of hidden vehicles, not in all", () => {
  const survey = { count: 6, from: 1, repeats: 1, preset: "compact-expansion", draws: 48 };
  const tallies = [...surveyPlans(survey).found.values()];
  const [hits, of] = [
    tallies.reduce((sum, tally) => sum + tally.hits, 0),
    tallies.reduce((sum, tally) => sum + tally.of, 0),
  ];
  expect(of).toBe(36);
  // Four of five of 36 are 29; those of one trial go together.
  expect(hits).toBeGreaterThanOrEqual(22);
  expect(hits).toBeLessThan(of);
});
