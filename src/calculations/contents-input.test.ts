import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { contentsOf, project, type StoredEvent } from "../trial/index.ts";
import { evidenceField } from "./contents-field.ts";
import { identifyInput } from "./contents-input.ts";

const log = JSON.parse(readFileSync("data/demonstration/hill-town.json", "utf8")) as {
  readonly events: readonly StoredEvent[];
};
const product = log.events.find(({ type }) => type === "product-listed")?.id ?? "";

test("what a log holds comes back from the calculation's input as it was, a vehicle's model whole", () => {
  const gathered = contentsOf(project(log.events), product);
  const input = identifyInput(gathered);
  const outcome = evidenceField.read(input?.["evidence"], "evidence", Number(input?.["barometer"]));
  if (outcome.kind === "unusable") throw new Error(JSON.stringify(outcome.issues));
  const evidence = gathered.items.map((item) => item.evidence);
  expect(evidence.map(({ kind }) => kind)).toContain("running");
  expect(outcome.value).toEqual(evidence);
});
