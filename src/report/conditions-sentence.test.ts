import { expect, test } from "vitest";
import type { DifferenceRow } from "../trial/index.ts";
import { unitChoice } from "./choose-unit.ts";
import { conditionsSentence } from "./conditions-sentence.ts";
import { shuttle } from "./shuttle.fixture.ts";

const warmer = (kelvin: number): DifferenceRow => ({
  quantity: "outside-temperature",
  form: "steady",
  condition: "parked-idle",
  baseline: { value: 298, u: 0.5 },
  other: { value: 298 + kelvin, u: 0.5 },
  difference: { value: kelvin, u: 0.1 },
  instrument: "shared",
  baselineRuns: [],
  otherRuns: [],
});

test("what was not equal is said in the reader's unit", () => {
  const said = (system: "us" | "si") =>
    conditionsSentence({ conditions: [warmer(4)], unmeasured: [] }, unitChoice(shuttle, system));
  expect(said("us")).toMatch(/^Conditions were not equal: outside air was 7\.2.°F higher/u);
  expect(said("si")).toMatch(/^Conditions were not equal: outside air was 4\.0.K higher/u);
});

test("a difference that nobody could read is none, and what nobody measured is named", () => {
  const units = unitChoice(shuttle, "si");
  const said = conditionsSentence(
    { conditions: [warmer(0.001)], unmeasured: ["return-air-temperature", "return-air-humidity"] },
    units,
  );
  expect(said).toMatch(/^No difference of conditions was seen/u);
  expect(said).toContain("return-air temperature and return-air humidity");
  expect(conditionsSentence({ conditions: [], unmeasured: [] }, units)).toMatch(
    /^No condition was measured on both sides/u,
  );
});
