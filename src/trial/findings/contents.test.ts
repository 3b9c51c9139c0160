import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { StoredEvent } from "../view.ts";
import { project } from "../project.ts";
import { contentsOf } from "./contents.ts";

const log = JSON.parse(readFileSync("data/demonstration/hill-town.json", "utf8")) as {
  readonly trial: string;
  readonly events: readonly StoredEvent[];
};
const product = log.events.find(({ type }) => type === "product-listed")?.id ?? "";

let made = 0;
/** One more event of the demonstration's device, later than all others. */
function event(type: StoredEvent["type"], body: object): StoredEvent {
  made += 1;
  const id = `019f0000-0000-7000-8000-${String(made).padStart(12, "0")}`;
  const at = `2026-07-01T09:${String(made).padStart(2, "0")}:00Z`;
  return { id, trial: log.trial, at, device: "phone", type, v: 1, body };
}
const reading = (quantity: string, value: number, unit: string) =>
  event("reading-taken", {
    stage: "identify",
    round: product,
    quantity,
    value: { value, unit },
    form: "steady",
  });
const evidenceOf = (...more: readonly StoredEvent[]) =>
  contentsOf(project([...log.events, ...more]), product);

test("the demonstration's log holds what was charged, and the vehicle at rest", () => {
  const { items } = evidenceOf();
  expect(items.map(({ evidence }) => evidence.kind)).toEqual(["fill", "pressure", "running"]);
  const [fill] = items;
  if (fill?.evidence.kind !== "fill") throw new Error("no fill");
  // 211 g into the vehicle and 3 g lost from hoses, out of a can of 455 mL: as the log was written.
  expect(fill.evidence.mass).toBeCloseTo(0.214, 6);
  expect(fill.evidence.volume).toBeCloseTo(455e-6, 9);
  expect(fill.evidence.full).toBe(true);
});

test("runs on the weighed product are evidence, calibrated by those on the label refrigerant", () => {
  const ran = evidenceOf().items.find(({ evidence }) => evidence.kind === "running");
  if (ran?.evidence.kind !== "running") throw new Error("no run");
  const { label, charge, uCharge, runs, baseline } = ran.evidence;
  expect(label).toBe("R134a");
  // 211 g into the vehicle: as the log was written.
  expect(charge).toBeCloseTo(0.211, 6);
  expect(uCharge).toBeGreaterThan(0.005);
  expect(runs.length).toBeGreaterThan(0);
  expect(baseline.length).toBeGreaterThan(0);
  expect(ran.entries).toHaveLength(runs.length + baseline.length);
  for (const { readings } of [...runs, ...baseline]) {
    expect(readings.map(({ quantity }) => quantity)).toContain("vent");
  }
});

test("a can's pressure needs the temperature of its liquid", () => {
  const alone = evidenceOf(reading("vessel-pressure", 5.5, "bar(g)"));
  expect(alone.unused).toHaveLength(1);
  const both = evidenceOf(
    reading("vessel-pressure", 5.5, "bar(g)"),
    reading("vessel-temperature", 20, "°C"),
  );
  expect(both.unused).toHaveLength(0);
  const evidence = both.items[0]?.evidence;
  expect(evidence).toMatchObject({ kind: "pressure", vessel: "can", T: 293.15 });
});

test("testers and the label are evidence; what was withdrawn is none", () => {
  const test1 = event("sample-tested", {
    stage: "identify",
    round: product,
    method: "identifier",
    parts: [
      { substance: "hydrocarbons", percent: 97 },
      { substance: "air", percent: 3 },
    ],
  });
  const test2 = event("sample-tested", {
    stage: "identify",
    round: product,
    method: "halogen-detector",
    responded: false,
  });
  const withdrawn = event("entry-withdrawn", { target: test2.id, reason: "wrong can" });
  const kinds = (...more: StoredEvent[]) =>
    evidenceOf(...more).items.map(({ evidence }) => evidence.kind);
  expect(kinds(test1, test2)).toEqual([
    ...["fill", "pressure", "running"],
    ...["identifier", "detector"],
  ]);
  expect(kinds(test1, test2, withdrawn)).toEqual(["fill", "pressure", "running", "identifier"]);
});

test("a product that is not listed has no evidence", () => {
  expect(contentsOf(project(log.events), "nobody").items).toEqual([]);
});
