import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { exportTrial, parseExport } from "../export.ts";
import { project } from "../project.ts";
import type { DifferenceRow } from "../view.ts";
import { hillTown } from "./hill-town.ts";

const text = (name: string) => readFileSync(`data/demonstration/${name}`, "utf8");
const events = hillTown({
  baseline: text("hill-town-baseline-us.csv"),
  productB: text("hill-town-product-b-si.csv"),
  hold: text("hill-town-hold.csv"),
});
const view = project(events);
const { ledger } = view;

const account = (name: string) => {
  const found = ledger.accounts.find((one) => one.name.startsWith(name));
  if (!found) throw new Error(`no account ${name}`);
  return found;
};

test("the committed file is what the notes give, and imports whole", () => {
  const file: unknown = JSON.parse(text("hill-town.json"));
  expect(file).toEqual(JSON.parse(JSON.stringify(exportTrial(events))));
  const parsed = parseExport(file);
  expect(parsed.kind).toBe("export");
  if (parsed.kind === "export") expect(project(parsed.events)).toEqual(view);
});

test("nothing is refused, and the mistyped weighing shows its correction", () => {
  expect(view.refused).toEqual([]);
  const corrected = view.entries.filter(({ corrections }) => corrections.length > 0);
  expect(corrected).toHaveLength(1);
  expect(corrected[0]).toMatchObject({
    conflict: [],
    original: { sourceWeighing: { after: { value: 140 } } },
    body: { sourceWeighing: { after: { value: 104 } } },
    corrections: [{ effective: true, device: "bay tablet" }],
  });
});

// By hand from the notes, g. One scale reading: 5/√3 and 2/√12 in quadrature = 2.944 g.
const uOne = Math.hypot(5 / Math.sqrt(3), 2 / Math.sqrt(12));
const uDifference = Math.SQRT2 * uOne;
const uPurge = 2 / Math.sqrt(3);

test("recovered 9548 − 8960 = 588 g; the label said 620 g, and the rest stays within its word", () => {
  const [recovered, rest] = ledger.postings;
  expect(recovered?.mass.value).toBeCloseTo(0.588, 12);
  expect(recovered?.mass.u).toBeCloseTo(uDifference / 1e3, 9);
  expect(rest).toMatchObject({ leg: "found-empty", to: "unaccounted" });
  expect(rest?.mass.value).toBeCloseTo(0.032, 12);
  const closure = ledger.closures.find(({ account: id, declared }) => id === "vehicle" && declared);
  // ±30 % of 620 g is 186 g; /√3 = 107.4 g.
  expect(closure?.z).toBeCloseTo(32 / Math.hypot(186 / Math.sqrt(3), uDifference), 6);
  expect(closure?.grade).toBe("closes");
});

test("the can gave 318 − 104 = 214 g where its label says 240 g: that does not close", () => {
  const closure = ledger.closures.find(({ account: id }) => id === account("Can 1").id);
  expect((closure?.residual ?? 0) * 1e3).toBeCloseTo(26, 9);
  // ±4.5 % of 240 g is 10.8 g; /√3 = 6.24 g.
  expect((closure?.u ?? 0) * 1e3).toBeCloseTo(Math.hypot(10.8 / Math.sqrt(3), uDifference), 9);
  expect(closure).toMatchObject({ kind: "found-empty", declared: true, grade: "does-not-close" });
});

test("214 − 3 = 211 g went in, 208 g came out: 3 g are open and close easily", () => {
  const into = ledger.postings.find(({ to, leg }) => to === "vehicle" && leg === "moved");
  expect((into?.mass.value ?? 0) * 1e3).toBeCloseTo(211, 9);
  expect((into?.mass.u ?? 0) * 1e3).toBeCloseTo(Math.hypot(uDifference, uPurge), 9);
  expect(account("Cylinder X7").mass.value * 1e3).toBeCloseTo(208, 9);
  const closure = ledger.closures.find(
    ({ account: id, declared }) => id === "vehicle" && !declared,
  );
  expect((closure?.residual ?? 0) * 1e3).toBeCloseTo(3, 9);
  expect((closure?.u ?? 0) * 1e3).toBeCloseTo(Math.hypot(2 * uOne, uPurge), 6);
  expect(closure?.grade).toBe("closes");
});

test("every gram: R1 2140 + 588 − 623, vehicle 623, lost 3, unaccounted 32 + 26 + 3", () => {
  const grams = (name: string) => account(name).mass.value * 1e3;
  expect(grams("Cylinder R1")).toBeCloseTo(2105, 9);
  expect(grams("The vehicle")).toBeCloseTo(623, 9);
  expect(grams("Lost")).toBeCloseTo(3, 9);
  expect(grams("Unaccounted")).toBeCloseTo(61, 9);
  expect(grams("Can 1")).toBe(0);
  expect(grams("Can 2")).toBeCloseTo(240, 9);
  // 620 + 2140 + 240 + 240
  expect(ledger.conservation).toMatchObject({ holds: true });
  expect(ledger.conservation.initial).toBeCloseTo(3.24, 12);
  expect(ledger.largest).toBeCloseTo(2.728, 12);
});

test("the air at 640 m is the standard atmosphere's 93.87 kPa", () => {
  // 101325 (1 − 2.25577e-5 · 640)^5.25588 = 93 869 Pa.
  expect(view.atmosphere).toMatchObject({ from: "altitude", u: 1000 });
  expect(view.atmosphere.value).toBeCloseTo(93_869, 0);
});

const row = (rows: readonly DifferenceRow[] | undefined, quantity: string) => {
  const found = rows?.find((one) => one.quantity === quantity);
  if (!found) throw new Error(`no row ${quantity}`);
  return found;
};

test("the comparison is as measured, in the same condition, with what was not equal beside it", () => {
  expect(view.comparisons.map(({ condition }) => condition)).toEqual([
    "parked-idle",
    "road-steady",
  ]);
  for (const { rows, conditions, unmeasured } of view.comparisons) {
    const vent = row(rows, "vent-temperature");
    expect(vent.instrument).toBe("shared");
    expect(vent.baselineRuns).toHaveLength(2);
    expect(Math.abs(vent.difference.value)).toBeLessThan(1);
    expect(row(conditions, "outside-temperature").difference.value).toBeGreaterThan(3);
    expect(unmeasured).toEqual(["return-air-temperature", "return-air-humidity"]);
  }
});

test("typed readings of Restore count like traces: drift from Prove to Restore", () => {
  // Settled 44.6 °F parked in Prove against 45.1 °F typed in Restore: about 0.3 K.
  const parked = view.drift.filter(({ condition }) => condition === "parked-idle");
  expect(row(parked, "vent-temperature").difference.value).toBeCloseTo(0.3, 1);
  expect(row(parked, "return-air-humidity").difference.value).toBeCloseTo(-0.04, 12);
  const restored = view.runs.filter(({ stage }) => stage === "restore");
  expect(restored.flatMap(({ values }) => values.map(({ standing }) => standing))).not.toContain(
    "settled",
  );
});

test("the stages stand where the notes leave them", () => {
  const states = view.stages.map(
    ({ stage, round, status }) => `${stage}${round ? " B" : ""} ${status}`,
  );
  expect(states).toEqual([
    "plan done",
    "prove open",
    "recover B done",
    "evacuate B done",
    "charge B done",
    "run B open",
    "identify B not-started",
    "restore open",
    "compare done",
    "hazards not-started",
    "claims not-started",
    "publish not-started",
  ]);
  // The notes never give the return air's temperature, which is worth more than anything else.
  const missing = view.stages.flatMap(({ requirements }) => requirements.filter(({ met }) => !met));
  expect(new Set(missing.map(({ id }) => id))).toEqual(
    new Set([
      "return-air",
      "contents",
      "hazards-understood",
      "claims-read",
      "closures-read",
      "answer-read",
    ]),
  );
});

test("every logged figure says which tail of its run gave it", () => {
  const logged = view.runs.flatMap(({ values }) =>
    values.flatMap(({ source }) => (source.kind === "trace" ? [source.window] : [])),
  );
  expect(logged.length).toBeGreaterThan(10);
  for (const { fromSeconds, toSeconds } of logged) {
    expect(toSeconds - fromSeconds).toBeGreaterThan(250);
    expect(toSeconds - fromSeconds).toBeLessThan(301);
  }
});
