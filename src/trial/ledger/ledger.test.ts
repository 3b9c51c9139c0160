import { expect, test } from "vitest";
import { logWithCar } from "../demonstration/car.fixture.ts";
import type { BodyOf } from "../events.ts";
import { project } from "../project.ts";
import { mixingWarning } from "./mixing.ts";

const g = (value: number) => ({ value, unit: "g" });
const at = (minute: number) => `2026-06-14T12:${String(minute).padStart(2, "0")}:00Z`;
const where = { stage: "recover" } as const;

/** A vehicle with 600 g on its label, one scale (±5 g, 2 g steps), two cylinders and a can. */
function shop() {
  const log = logWithCar(at(0));
  const scale = log.add(at(0), "instrument-listed", {
    name: "scale",
    measures: "mass",
    accuracy: { kind: "limit", limit: g(5) },
    resolution: g(2),
  });
  const product = log.add(at(0), "product-listed", { name: "P", claims: [], flammableMark: true });
  const vessel = (name: string, extra: Partial<BodyOf<"vessel-listed">> = {}) =>
    log.add(at(0), "vessel-listed", { name, kind: "cylinder", ...extra });
  const blend = vessel("Blend", {
    tare: g(5000),
    holds: { substance: { kind: "fluid", fluid: "R134a" }, mass: g(900), basis: "weighed" },
  });
  const empty = vessel("Empty", { tare: g(5000) });
  const can = vessel("Can", {
    kind: "can",
    holds: { substance: { kind: "product", product }, mass: g(300), basis: "declared" },
  });
  const transfer = (minute: number, body: Omit<BodyOf<"transfer-posted">, "stage">) =>
    log.add(at(minute), "transfer-posted", { ...where, ...body });
  return { log, scale, product, blend, empty, can, transfer };
}

/** One reading of that scale: 5/√3 and 2/√12 in quadrature, g. */
const uOne = Math.hypot(5 / Math.sqrt(3), 2 / Math.sqrt(12));

function accounts(events: Parameters<typeof project>[0]) {
  const { ledger } = project(events);
  return {
    ledger,
    mass: (id: string) => ledger.accounts.find((account) => account.id === id)?.mass,
  };
}

test("both sides weighed: what arrived is posted, the difference is unaccounted with its u", () => {
  const { log, blend, empty, transfer } = shop();
  transfer(1, {
    from: blend,
    to: empty,
    sourceWeighing: { before: g(5900), after: g(5700) },
    destinationWeighing: { before: g(5000), after: g(5190) },
  });
  const { ledger, mass } = accounts(log.events);
  expect(mass(empty)?.value).toBeCloseTo(0.19, 12);
  expect(mass(blend)?.value).toBeCloseTo(0.7, 12);
  expect(mass("unaccounted")?.value).toBeCloseTo(0.01, 12);
  // Two differences of two readings: √4 uOne = 5.9 g, so 10 g is 1.7 of them.
  expect(mass("unaccounted")?.u).toBeCloseTo((2 * uOne) / 1e3, 12);
  expect(ledger.closures).toMatchObject([{ kind: "both-weighed", grade: "closes" }]);
  expect(ledger.closures[0]?.z).toBeCloseTo(10 / (2 * uOne), 10);
  // Opening and source weighing are independent: 900 − 200 leans on four readings... of two inputs.
  expect(mass(blend)?.u).toBeCloseTo(Math.hypot(Math.SQRT2 * uOne, Math.SQRT2 * uOne) / 1e3, 12);
});

test("a purge comes out of what the source gave", () => {
  const { log, can, transfer } = shop();
  transfer(1, {
    from: can,
    to: "vehicle",
    sourceWeighing: { before: g(400), after: g(150) },
    purged: { mass: g(4), limit: g(3) },
  });
  const { mass } = accounts(log.events);
  expect(mass("vehicle")?.value).toBeCloseTo(0.6 + 0.246, 12);
  expect(mass("lost")).toMatchObject({ value: 0.004 });
  expect(mass("lost")?.u).toBeCloseTo(0.003 / Math.sqrt(3), 12);
  expect(mass(can)?.value).toBeCloseTo(0.05, 12);
});

test("destination weighed alone, or stated, or no scale named at all", () => {
  const { log, blend, empty, scale, transfer } = shop();
  transfer(1, { from: blend, to: empty, destinationWeighing: { before: g(5000), after: g(5100) } });
  transfer(2, { from: blend, to: "lost", stated: { mass: g(6), limit: g(3) } });
  const { ledger, mass } = accounts(log.events);
  expect(mass(empty)?.value).toBeCloseTo(0.1, 12);
  expect(mass("lost")?.value).toBeCloseTo(0.006, 12);
  expect(mass(blend)?.value).toBeCloseTo(0.794, 12);
  expect(ledger.postings.map(({ evidence }) => evidence)).toEqual(["destination", "stated"]);
  expect(ledger.postings.every(({ scaleAssumed }) => !scaleAssumed)).toBe(true);
  const withoutScale = log.events.filter(({ id }) => id !== scale);
  const assumed = project(withoutScale).ledger;
  expect(assumed.postings[0]?.scaleAssumed).toBe(true);
  // ±10 g a reading, two readings.
  expect(assumed.postings[0]?.mass.u).toBeCloseTo((Math.SQRT2 * 0.01) / Math.sqrt(3), 12);
});

test("found empty: the residual goes to unaccounted and says whether a declaration stood behind it", () => {
  const { log, empty, transfer } = shop();
  transfer(1, {
    from: "vehicle",
    to: empty,
    destinationWeighing: { before: g(5000), after: g(5400) },
  });
  log.add(at(2), "vessel-found-empty", { ...where, vessel: "vehicle", evidence: "vacuum holds" });
  const { ledger, mass } = accounts(log.events);
  expect(mass("vehicle")).toEqual({ value: 0, u: 0 });
  expect(mass("unaccounted")?.value).toBeCloseTo(0.2, 12);
  const [closure] = ledger.closures;
  expect(closure).toMatchObject({ kind: "found-empty", declared: true, account: "vehicle" });
  // The label is worth ±30 %: 180 g / √3 = 104 g, so 200 g is 1.9 of them.
  expect(closure?.z).toBeCloseTo(200 / Math.hypot(180 / Math.sqrt(3), Math.SQRT2 * uOne), 6);
});

test("a gross weighing beside the ledger is a closure and moves nothing", () => {
  const { log, blend } = shop();
  log.add(at(1), "reading-taken", {
    ...where,
    quantity: "gross-mass",
    form: "steady",
    value: g(5850),
    vessel: blend,
  });
  const { ledger, mass } = accounts(log.events);
  expect(mass(blend)?.value).toBeCloseTo(0.9, 12);
  expect(ledger.closures).toMatchObject([{ kind: "gross-mass", grade: "does-not-close" }]);
  expect(ledger.closures[0]?.residual).toBeCloseTo(0.05, 12);
});

test("a mass below nothing is named once, and runs that go backwards are too", () => {
  const { log, empty, blend, transfer } = shop();
  const out = { before: g(5500), after: g(5400) };
  transfer(1, { from: empty, to: blend, sourceWeighing: out });
  transfer(2, { from: empty, to: blend, sourceWeighing: out });
  transfer(3, { from: blend, to: empty, sourceWeighing: { before: g(5400), after: g(5450) } });
  const { ledger, mass } = accounts(log.events);
  expect(mass(empty)?.value).toBeCloseTo(-0.25, 12);
  expect(ledger.closures.map(({ kind }) => kind)).toEqual(["negative-contents", "runs-backwards"]);
  // What an empty vessel gave has no name and is owed there: 200 g, and its share of the 50 g that went
  // back out of 900 g of R134a and 200 g of "unknown".
  const owed = ledger.accounts.find(({ id }) => id === empty)?.contents;
  const unknown = owed?.find(({ substance }) => substance === "unknown")?.mass.value;
  expect(unknown).toBeCloseTo(-0.2 - (0.05 * 200) / 1100, 12);
  expect(ledger.conservation.holds).toBe(true);
});

test("mixed contents leave in proportion by mass", () => {
  const { log, can, empty, blend, product, transfer } = shop();
  transfer(1, { from: can, to: blend, sourceWeighing: { before: g(400), after: g(100) } });
  transfer(2, { from: blend, to: empty, destinationWeighing: { before: g(5000), after: g(5400) } });
  const { ledger } = accounts(log.events);
  const contents = ledger.accounts.find(({ id }) => id === empty)?.contents;
  // 900 g R134a and 300 g of the product: three to one.
  expect(contents?.find(({ substance }) => substance === "fluid:R134a")?.mass.value).toBeCloseTo(
    0.3,
    12,
  );
  expect(
    contents?.find(({ substance }) => substance === `product:${product}`)?.mass.value,
  ).toBeCloseTo(0.1, 12);
});

test("a vessel nobody listed still keeps its mass", () => {
  const { log, blend, transfer } = shop();
  const stranger = "00000000-0000-7000-8000-000000000001";
  transfer(1, { from: blend, to: stranger, sourceWeighing: { before: g(5900), after: g(5800) } });
  const { ledger, mass } = accounts(log.events);
  expect(mass(stranger)?.value).toBeCloseTo(0.1, 12);
  expect(ledger.conservation.holds).toBe(true);
});

test("warnings before a transfer: mixtures, residues, ratings, unknowns", () => {
  const { log, blend, empty, can, transfer } = shop();
  const kinds = (from: string, to: string) =>
    mixingWarning(project(log.events), from, to)
      .map(({ kind, severity }) => `${kind} ${severity}`)
      .sort();
  expect(kinds(can, blend)).toEqual([
    "mixes stop",
    "not-flammable-rated stop",
    "pressure-rating-unknown check",
  ]);
  expect(kinds("vehicle", can)).toContain("not-a-recovery-vessel stop");
  expect(kinds("vehicle", blend)).toEqual(["pressure-rating-unknown check"]);
  expect(kinds("vehicle", empty)).toContain("unknown-contents check");
  expect(kinds(can, "vehicle")).toEqual(["mixes stop"]);
  expect(kinds(can, can)).toEqual(["same-vessel stop"]);
  expect(kinds(can, "lost")).toEqual([]);
  expect(kinds(empty, blend)).toContain("unknown-contents check");
  // Recovered but never found empty: what is left may be a residue.
  transfer(1, {
    from: "vehicle",
    to: blend,
    destinationWeighing: { before: g(5900), after: g(6480) },
  });
  expect(kinds(can, "vehicle")).toEqual(["not-emptied-since check"]);
  log.add(at(2), "vessel-found-empty", { ...where, vessel: "vehicle", evidence: "holds" });
  expect(kinds(can, "vehicle")).toEqual([]);
});
