import { expect, test } from "vitest";
import { knownBlends, knownFluids, project } from "../../trial/index.ts";
import { fluidOptions, substanceOptions } from "./substances.ts";

test("every fluid and blend is offered once, what vehicle labels carry first", () => {
  const ids = fluidOptions().map(({ value }) => value);
  expect(ids[0]).toBe("R134a");
  expect([...ids].sort()).toEqual([...knownFluids().map(({ id }) => id), ...knownBlends()].sort());
});

test("a vessel may hold any of them before anything is described", () => {
  expect(substanceOptions(project([])).map(({ value }) => value)).toContain("fluid:R290");
});
