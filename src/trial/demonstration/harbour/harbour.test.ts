import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { exportTrial, parseExport } from "../../export.ts";
import { project } from "../../project.ts";
import { harbour } from "./harbour.ts";
import { harbourTruth } from "./truth.ts";

const events = harbour();
const view = project(events);
const { ledger } = view;

const account = (name: string) => {
  const found = ledger.accounts.find((one) => one.name === name);
  if (!found) throw new Error(`no account ${name}`);
  return found;
};
const closureOf = (name: string) =>
  ledger.closures.find((one) => one.account === account(name).id && one.declared);

test("the committed file is what the notes give, and imports whole", () => {
  const file: unknown = JSON.parse(readFileSync("data/demonstration/harbour.json", "utf8"));
  expect(file).toEqual(JSON.parse(JSON.stringify(exportTrial(events))));
  const parsed = parseExport(file);
  expect(parsed.kind).toBe("export");
});

test("nothing is refused, and every stage that the bench can finish is done", () => {
  expect(view.refused).toEqual([]);
  const open = view.stages.filter(({ status }) => status !== "done").map(({ stage }) => stage);
  expect(new Set(open)).toEqual(new Set(["hazards", "claims", "publish"]));
});

test("the mistyped weighing shows its correction", () => {
  const corrected = view.entries.filter(({ corrections }) => corrections.length > 0);
  expect(corrected).toHaveLength(1);
  expect(corrected[0]).toMatchObject({
    conflict: [],
    original: { sourceWeighing: { after: { value: 212 } } },
    body: { sourceWeighing: { after: { value: 122 } } },
  });
});

test("the road part that was entered without a connection is there, from its own device", () => {
  const run = view.entries.find(({ device }) => device === "road phone");
  expect(run?.type).toBe("run-recorded");
  const values = view.runs.find(({ id }) => id === run?.id)?.values ?? [];
  expect(values.length).toBeGreaterThanOrEqual(6);
});

test("masses on the scale agree with the hidden truth within their uncertainty", () => {
  const gone = (name: string) => account(name).initial.value - (closureOf(name)?.residual ?? NaN);
  for (const [name, hidden] of [
    ["Heron, can 1", harbourTruth.cans.heron],
    ["Kestrel, can 1", harbourTruth.cans.kestrel],
    ["Magpie, can 1", harbourTruth.cans.magpie],
  ] as const) {
    // The can's rest of vapour, about 4 g, is not part of what it gave.
    expect(gone(name)).toBeGreaterThan(hidden.masses[0] - 0.009);
    expect(gone(name)).toBeLessThan(hidden.masses[0] + 0.004);
  }
});

test("only the can that holds less than it says does not close", () => {
  const open = ledger.closures.filter(({ grade }) => grade === "does-not-close");
  expect(open.map(({ account: id }) => id)).toEqual([account("Kestrel, can 1").id]);
});

test("one hold rises with the leak and on; the others level", () => {
  const rises = view.traces
    .filter(({ kind }) => kind === "hold")
    .map(({ fileName, series }) => {
      const values = series[0]?.values ?? [];
      const [middle = NaN, last = NaN] = [values[15], values.at(-1)];
      return { fileName, rate: (last - middle) / 900 };
    });
  expect(rises).toHaveLength(5);
  const truth = harbourTruth.leak / harbourTruth.internalVolume;
  for (const { fileName, rate } of rises) {
    if (fileName.includes("first")) expect(rate / truth).toBeCloseTo(1, 1);
    else expect(rate / truth).toBeLessThan(0.02);
  }
});
