import { expect, test } from "vitest";
import { calibrationError, reliabilityTable } from "../../src/inference/index.ts";
import { surveyRuns } from "../contents/run-survey.ts";
import { SEPARABLE, surveyCans } from "../contents/survey.ts";

const EDGES = [0, 0.01, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99, 1];

test.each([
  ["two pressures and the liquid's density", true],
  ["two pressures alone", false],
])("500 hidden cans: %s", (name, density) => {
  const survey = surveyCans(500, 20260, density);
  const table = reliabilityTable(survey.forecasts, EDGES);
  const rows = table.map(
    ({ from, to, count, stated, observed, standardError: se }) =>
      `${from}-${to}: ${count} stated ${stated.toFixed(3)} observed ${observed.toFixed(3)} se ${se.toFixed(3)}`,
  );
  const { right, cans, separable, rightOfSeparable, missed } = survey;
  console.log(
    [
      name,
      ...rows,
      `leading right ${right}/${cans}; separable (${SEPARABLE} sigma) ${rightOfSeparable}/${separable}`,
      ...missed,
    ].join("\n"),
  );
  expect(calibrationError(table)).toBeLessThan(0.02);
  // Five classes with fifty or more forecasts may stray by three standard errors at most.
  for (const row of table.filter(({ count }) => count >= 30)) {
    expect(Math.abs(row.stated - row.observed)).toBeLessThan(3.5 * row.standardError + 0.01);
  }
  if (density) expect(rightOfSeparable / separable).toBeGreaterThanOrEqual(0.95);
});

const rowsOf = (forecasts: Parameters<typeof reliabilityTable>[0]) =>
  reliabilityTable(forecasts, EDGES).map(
    ({ from, to, count, stated, observed, standardError: se }) =>
      `${from}-${to}: ${count} stated ${stated.toFixed(3)} observed ${observed.toFixed(3)} se ${se.toFixed(3)}`,
  );

test.each([
  ["calibrated", { temperatures: 2, density: true, calibrated: true }],
  ["not calibrated", { temperatures: 2, density: true, calibrated: false }],
  [
    "calibrated, one pressure and no density",
    { temperatures: 1, density: false, calibrated: true },
  ],
] as const)(
  "200 hidden cans in hidden vehicles: a run helps and stays honest, %s",
  (name, setting) => {
    const survey = surveyRuns(200, 41200, setting);
    const { without, with: run, better, cans } = survey;
    console.log(
      [
        `${name}: score ${without.score.toFixed(3)} without, ${run.score.toFixed(3)} with; better ${better}/${cans}`,
        ...rowsOf(run.forecasts),
      ].join("\n"),
    );
    expect(run.score).toBeGreaterThan(without.score);
    expect(calibrationError(reliabilityTable(run.forecasts, EDGES))).toBeLessThan(0.02);
  },
);
