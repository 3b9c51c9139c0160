import { expect, test } from "vitest";
import { runHolds } from "./hold-runs.ts";

test("a thousand holds: right where separable, probabilities true, intervals cover", () => {
  const seen = runHolds(1000, 31);
  console.log(JSON.stringify(seen, undefined, 1));
  expect(seen.right).toBeGreaterThanOrEqual(0.95);
  expect(seen.worstCalibration).toBeLessThan(3.5);
  expect(seen.coverage).toBeGreaterThanOrEqual(0.93);
  expect(seen.coverage).toBeLessThanOrEqual(0.97);
});
