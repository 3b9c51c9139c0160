// 20,000 random flashes of blends. npm test runs a few hundred of them: test/property/blend-flashes.property.test.ts.
import { expect, test } from "vitest";
import { runBlendFlashes } from "../property/blend-flashes.ts";

test("20,000 random flashes: none fails, each inverts, phases meet equal fugacity", () => {
  const { flashes, twoPhase, failures, worst } = runBlendFlashes(5000, 3);
  console.log(JSON.stringify({ flashes, twoPhase, failed: failures.length, worst }));
  for (const line of failures.slice(0, 40)) console.log(line);
  expect(failures).toEqual([]);
  for (const [what, value] of Object.entries(worst)) expect(value, what).toBeLessThan(1e-8);
});
