import { expect, test } from "vitest";
import { ids, ledger } from "../shuttle.fixture.ts";
import { atStep, flowsOf, lanesOf } from "./mass-flows.ts";

const rows = new Map(ledger.accounts.map(({ id }, i) => [id, i]));

test("flows carry all that was posted, one line for each way between two accounts", () => {
  const flows = flowsOf(ledger.postings);
  expect(flows.map(({ from, to }) => [from, to])).toContainEqual([ids.can, "lost"]);
  const ways = new Set(flows.map(({ from, to }) => `${from} ${to}`));
  expect(ways.size).toBe(flows.length);
  const posted = ledger.postings.reduce((sum, { mass }) => sum + mass.value, 0);
  expect(flows.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(posted, 12);
});

test("a negative posting is drawn the other way", () => {
  const [first] = ledger.postings;
  if (!first) throw new RangeError("the fixture has postings");
  const [flow] = flowsOf([{ ...first, mass: { value: -0.1, u: 0.01 } }]);
  expect(flow).toMatchObject({ from: first.to, to: first.from, mass: 0.1 });
});

test("no two lanes share a stretch", () => {
  const lanes = lanesOf(flowsOf(ledger.postings), rows);
  for (const a of lanes) {
    for (const b of lanes) {
      if (a === b || a.lane !== b.lane) continue;
      const apart =
        Math.max(a.fromRow, a.toRow) < Math.min(b.fromRow, b.toRow) ||
        Math.max(b.fromRow, b.toRow) < Math.min(a.fromRow, a.toRow);
      expect(apart).toBe(true);
    }
  }
});

test("a step shows its own postings against the state before it", () => {
  const step = ledger.steps[2];
  if (!step) throw new RangeError("the fixture has three steps");
  const { masses, before, made } = atStep(ledger, step.entry);
  expect(made.map(({ leg }) => leg)).toEqual(["moved", "purged"]);
  expect(masses.get("vehicle")).toBe(0.211);
  expect(before?.get("vehicle")).toBe(0);
});
