import { expect, test } from "vitest";
import type { Caution, StageView } from "../../trial/index.ts";
import { cautionsBefore } from "./caution-places.ts";

const caution = (id: string): Caution => ({
  id,
  severity: "caution",
  lead: id,
  text: id,
  reason: "",
  source: "",
});
const stage = (...ids: readonly string[]): StageView => ({
  stage: "restore",
  title: "Restore",
  endState: "",
  status: "open",
  requirements: [],
  prompts: [],
  cautions: ids.map(caution),
});

test("a caution stands before the act it concerns and before no other", () => {
  const here = stage("overfill", "liquid-slug", "eyes-and-skin");
  const ids = (act: string) => cautionsBefore(here, act).map(({ id }) => id);
  expect(ids("transfer")).toEqual(["eyes-and-skin"]);
  expect(ids("transfer-out")).toEqual(["overfill"]);
  expect(ids("transfer-in")).toEqual(["liquid-slug"]);
  expect(ids("vent-temperature")).toEqual([]);
});

test("a caution that is new here stands before every act, once", () => {
  const here = stage("new-one");
  expect(cautionsBefore(here, "vacuum")).toHaveLength(1);
  expect(cautionsBefore(here, "transfer")).toHaveLength(1);
  expect(cautionsBefore(here, "transfer-out")).toHaveLength(0);
});
