import { expect, test } from "vitest";
import { fluidIds, fluidInfo, namedBlends } from "../fluids/index.ts";
import { knownBlends, knownFluids } from "./known-fluids.ts";

test("the list of names is that of the fluids and blends that can be computed", () => {
  expect(knownFluids()).toEqual(fluidIds.map((id) => ({ id, name: fluidInfo(id).name })));
  expect(knownBlends()).toEqual(namedBlends.map(({ name }) => name));
});
