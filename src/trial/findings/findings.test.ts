import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { hillTown } from "../demonstration/hill-town.ts";
import { logWithCar } from "../demonstration/car.fixture.ts";
import type { InventedLog } from "../demonstration/log.ts";
import { project } from "../project.ts";
import { knownSubstance } from "./claims/known-substance.ts";
import { type ClaimFinding, claimFindings } from "./claims.ts";
import { hazardFindings } from "./hazards.ts";

const noon = "2026-06-14T12:00:00Z";
const g = (value: number) => ({ value, unit: "g" });

function opened(claims: readonly string[], change: object = {}) {
  const log = logWithCar(noon, { cabinVolume: { value: 3, unit: "m3" } });
  const product = log.add(noon, "product-listed", {
    name: "P",
    claims: [...claims],
    flammableMark: false,
    labelMass: g(300),
    ...change,
  });
  return { log, product };
}
const findingsOf = (log: InventedLog) => claimFindings(project(log.events))[0];
const first = (finding: ClaimFinding | undefined) => finding?.statements[0];

describe("claims of a trial", () => {
  test("a person's reading stands above the rules, the last one counts, and a withdrawn one does not", () => {
    const text = "Feels like winter";
    const { log, product } = opened([text]);
    expect(findingsOf(log)?.claims[0]).toMatchObject({
      readBy: { kind: "rules" },
      statements: [{ reading: { kind: "other" }, verdict: "undecided" }],
    });
    log.add(noon, "claim-read", { product, text, kind: "lower-head-pressure" });
    const entry = log.add("2026-06-14T12:01:00Z", "claim-read", {
      product,
      text,
      kind: "colder-air",
    });
    expect(findingsOf(log)?.claims[0]).toMatchObject({
      readBy: { kind: "person", entry },
      statements: [{ reading: { kind: "colder-air" } }],
    });
    log.add("2026-06-14T12:02:00Z", "entry-withdrawn", { target: entry, reason: "mistaken" });
    expect(first(findingsOf(log)?.claims[0])?.reading.kind).toBe("lower-head-pressure");
  });

  test("what only the label declares supports nothing, and an identifier settles it", () => {
    const { log, product } = opened(["Non-flammable"], { fluid: "R134a" });
    expect(first(findingsOf(log)?.claims[0])?.verdict).toBe("undecided");
    log.add(noon, "sample-tested", {
      stage: "identify",
      round: product,
      method: "identifier",
      parts: [{ substance: "R134a", percent: 99.5 }],
    });
    expect(first(findingsOf(log)?.claims[0])?.verdict).toBe("supported");
    log.add(noon, "sample-tested", {
      stage: "identify",
      round: product,
      method: "combustible-gas-detector",
      responded: true,
    });
    expect(first(findingsOf(log)?.claims[0])?.verdict).toBe("contradicted");
  });

  test("a can that gave far less than its label is contradicted by the scale", () => {
    const { log, product } = opened(["Net mass 300 g"]);
    const can = log.add(noon, "vessel-listed", {
      name: "can",
      kind: "can",
      waterCapacity: { value: 320, unit: "mL" },
      holds: { substance: { kind: "product", product }, mass: g(300), basis: "declared" },
    });
    log.add(noon, "transfer-posted", {
      stage: "charge",
      round: product,
      from: can,
      to: "vehicle",
      sourceWeighing: { before: g(400), after: g(160) },
    });
    expect(first(findingsOf(log)?.claims[0])?.verdict).toBe("undecided");
    log.add(noon, "vessel-found-empty", {
      stage: "charge",
      round: product,
      vessel: can,
      evidence: "e",
    });
    // 240 g, at most 40 kg/m3 · 0.32 L = 13 g behind, and 2 · √2 · 10/√3 g = 16 g of scale: below 300 g.
    const net = first(findingsOf(log)?.claims[0]);
    expect(net?.verdict).toBe("contradicted");
    expect(net?.because).toMatch(/held less: at most 269 g/u);
  });

  test("a difference in equal conditions that is passed in decides", () => {
    const { log, product } = opened(["Colder air"]);
    const view = project(log.events);
    const effect = { product, quantity: "vent-temperature", condition: "road-steady" } as const;
    const fair = { ...effect, basis: "equal-conditions", effect: 2, lower: 1, upper: 3 } as const;
    const [without] = claimFindings(view);
    const [with_] = claimFindings(view, { fair: [fair] });
    expect(first(without?.claims[0])?.verdict).toBe("undecided");
    expect(first(with_?.claims[0])?.verdict).toBe("contradicted");
  });

  test("cost follows from what went in, and is not guessed", () => {
    const { log, product } = opened([], { price: "$12.00", fluid: "R290" });
    const can = log.add(noon, "vessel-listed", {
      name: "can",
      kind: "can",
      holds: { substance: { kind: "product", product }, mass: g(300), basis: "declared" },
    });
    expect(findingsOf(log)?.cost).toMatchObject({ perCan: 12, currency: "$" });
    expect(findingsOf(log)?.cost?.perCharge).toBeUndefined();
    log.add(noon, "transfer-posted", {
      stage: "charge",
      round: product,
      from: can,
      to: "vehicle",
      sourceWeighing: { before: g(400), after: g(160) },
    });
    const cost = findingsOf(log)?.cost;
    expect(cost?.perCharge).toBeCloseTo(12 * 0.8, 9);
    // Cooling by volume of R290 over R134a 1.315 (CoolProp 8.0.0).
    expect(cost?.perCooling).toBeCloseTo((12 * 0.8) / 1.315, 1);
  });
});

describe("hazards of a trial", () => {
  test("what does not say what it is stands as the fluid with the lowest limit", () => {
    const [product, label] = hazardFindings(project(opened([]).log.events));
    expect(product).toMatchObject({
      takenAs: { name: "R290", because: "worst" },
      treatment: { proof: "silent" },
      mass: 0.3,
      massFrom: "label-mass",
    });
    // 300 g in 3 m3 against 0.038 kg/m3: 263 %.
    expect(product?.scenarios[0]?.zone.overLfl).toBeCloseTo(2.632, 3);
    expect(product?.scenarios[0]?.zone.safeMass).toBeCloseTo(0.0285, 6);
    expect(label).toMatchObject({ product: "label", name: "R134a", burns: "does-not-burn" });
    // AR4 1430.
    expect(label?.co2.find(({ edition }) => edition === "AR4")?.mass).toBeCloseTo(858, 6);
  });

  test("what was identified takes the place of what is declared or stands in", () => {
    const { log, product } = opened(["Non-flammable"]);
    const substance = knownSubstance("R152a");
    if (!substance) throw new Error("R152a is known");
    const identified = new Map([[product, substance]]);
    const view = project(log.events);
    const leader = { id: "R152a", title: "R152a", kind: "pure", probability: 0.97 };
    const weighed = {
      ...{ verdict: "named" as const, says: "", compositions: [], overall: [], hazards: [] },
      families: [leader],
    };
    expect(hazardFindings(view, new Map([[product, weighed]]))[0]?.takenAs).toEqual({
      name: "R152a",
      because: "identified",
    });
    expect(first(claimFindings(view, { identified })[0]?.claims[0])?.verdict).toBe("contradicted");
  });

  test("a test that finds fuel takes the declaration's place", () => {
    const { log, product } = opened([], { fluid: "R134a", price: "$12.00" });
    expect(hazardFindings(project(log.events))[0]?.treatment?.proof).toBe("label");
    log.add(noon, "sample-tested", {
      stage: "identify",
      round: product,
      method: "identifier",
      parts: [
        { substance: "R134a", percent: 75 },
        { substance: "hydrocarbons", percent: 25 },
      ],
    });
    const view = project(log.events);
    expect(hazardFindings(view)[0]).toMatchObject({
      takenAs: { name: "R290", because: "worst" },
      treatment: { proof: "test" },
      burns: "limits",
    });
    expect(claimFindings(view)[0]?.cost?.relativeCooling).toBeUndefined();
  });

  test("without a mass nothing is told but that it is missing", () => {
    const [product] = hazardFindings(project(opened([], { labelMass: undefined }).log.events));
    expect(product).toMatchObject({ missing: "mass", scenarios: [] });
  });
});

test("the demonstration's claim is contradicted whatever is in the can", () => {
  const text = (name: string) => readFileSync(`data/demonstration/${name}`, "utf8");
  const events = hillTown({
    baseline: text("hill-town-baseline-us.csv"),
    productB: text("hill-town-product-b-si.csv"),
    hold: text("hill-town-hold.csv"),
  });
  const view = project(events);
  const [product] = claimFindings(view);
  const [equal] = product?.claims ?? [];
  expect(first(equal)).toMatchObject({
    verdict: "contradicted",
    reading: { mass: 0.24, equals: 0.68, of: "R134a" },
  });
  const [hazard] = hazardFindings(view);
  expect(hazard).toMatchObject({ massFrom: "charged" });
  expect((hazard?.mass ?? 0) * 1e3).toBeCloseTo(211, 9);
});
