// The long version of the survey in test/property: run by the campaign, not by every test.
import { describe, expect, test } from "vitest";
import { fluid, fluidIds } from "../../src/fluids/index.ts";
import { surveyFlashes } from "../property/flash-survey.ts";

const states = 30_000;

describe(`${String(states)} single-phase states of every fluid`, () => {
  for (const id of fluidIds) {
    test(id, () => {
      const { failures, worst } = surveyFlashes(fluid(id), states, 2);
      console.info(id, JSON.stringify(worst));
      expect(failures).toEqual([]);
      expect(worst.p).toBeLessThan(id === "R22" ? 1e-6 : 2e-9);
      expect(worst["T from p, h"]).toBeLessThan(1e-8);
      expect(worst["T from p, s"]).toBeLessThan(1e-8);
    });
  }
});
