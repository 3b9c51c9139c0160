// The long version of the survey in src/vehicle/run.property.test.ts.
import { expect, test } from "vitest";
import { quantile, survey } from "../vehicle/survey.ts";

const count = 10_000;

test(`${String(count)} random vehicles, fluids, charges, faults and weathers`, () => {
  const { counts, unresolved, broken, worst, cold, warm, all } = survey(21, count);
  console.info(JSON.stringify({ counts, worst }));
  console.info(
    `ms: cold median ${quantile(cold, 0.5).toFixed(3)}, warm ${quantile(warm, 0.5).toFixed(3)}, worst ${quantile(all, 1).toFixed(1)}`,
  );
  expect(broken).toEqual([]);
  expect(unresolved).toBeLessThanOrEqual(count / 1000);
});
