// Random flashes of blends. npm test runs a few hundred: test/property/blend-flashes.property.test.ts.
import { expect, test } from "vitest";
import {
  randomCase,
  randomGasCase,
  randomMixtureCase,
  runBlendFlashes,
} from "../property/blend-flashes.ts";

test.each([
  ["hydrocarbons, HFC and HFO, R134a with hydrocarbons", randomCase, 5000],
  ["refrigerants with permanent gases", randomGasCase, 2500],
  ["any two to six fluids", randomMixtureCase, 2500],
] as const)("%s: none fails, each inverts, phases meet equal fugacity", (_, draw, count) => {
  const { flashes, twoPhase, failures, worst } = runBlendFlashes(count, 3, draw);
  console.log(JSON.stringify({ flashes, twoPhase, failed: failures.length, worst }));
  for (const line of failures.slice(0, 40)) console.log(line);
  expect(failures).toEqual([]);
  for (const [what, value] of Object.entries(worst)) expect(value, what).toBeLessThan(1e-8);
});
