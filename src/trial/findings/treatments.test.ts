import { expect, test } from "vitest";
import { families, identify } from "../../evidence/index.ts";
import { logWithCar } from "../demonstration/car.fixture.ts";
import { project } from "../project.ts";
import { unweighed } from "../stages/treatment.ts";
import { cautionsAt } from "../stages/stages.ts";
import { treatmentSentence } from "../stages/treatment.ts";
import { hazardFindings } from "./hazards.ts";
import type { Identification } from "./identified.ts";
import { treatments } from "./treatments.ts";

const noon = "2026-06-14T12:00:00Z";

function opened(change: object = {}) {
  const log = logWithCar(noon, { cabinVolume: { value: 3, unit: "m3" } });
  const product = log.add(noon, "product-listed", {
    name: "P",
    claims: [],
    flammableMark: false,
    labelMass: { value: 300, unit: "g" },
    fluid: "R134a",
    ...change,
  });
  return { log, product, view: project(log.events) };
}

/** An identification by hand: what it leaves open, and whether it names anything. */
const found = (change: Partial<Identification>): Identification => ({
  verdict: "undecided",
  says: "",
  families: [{ id: "R134a", title: "R134a", kind: "pure", probability: 0.6 }],
  compositions: [],
  overall: [{ fluid: "R134a", mean: 0.7, from: 0, to: 1 }],
  hazards: [],
  ...change,
});
const burning = (probability: number, ...brought: string[]) =>
  ({ kind: "burns", probability, families: brought }) as const;

test("no label moves flame, poison and aluminium out of what is probable: so it counts as all of them", () => {
  const declared = ["R134a", "R1234yf", "R744", "HC 60/40", "R513A"];
  expect(families.map(({ id }) => id)).toEqual(expect.arrayContaining(declared));
  for (const declares of declared) {
    const { hazards } = identify([{ kind: "label", declares }]);
    expect(hazards.map(({ kind }) => kind).sort()).toEqual([...unweighed({}).harms].sort());
  }
  const full = identify([{ kind: "label", declares: "R744", trust: 0.999 }]);
  expect(full.verdict).toBe("undecided");
  expect(full.says).toContain("A label proves nothing");
});

test("a declared composition is a claim: the worst stands for it until readings bear it out", () => {
  const { view, product } = opened();
  const [alone] = hazardFindings(view);
  expect(alone).toMatchObject({
    takenAs: { name: "R290", because: "worst" },
    treatment: { proof: "label" },
    burns: "limits",
  });
  // 300 g in 3 m3 against 0.038 kg/m3.
  expect(alone?.scenarios[0]?.zone.overLfl).toBeCloseTo(2.632, 3);
  expect(alone?.treatment && treatmentSentence(alone.treatment)).toBe(
    "What is in the can is not proven: only its label says what it is. It is treated as the worst that is still probable: flammable, poisonous and attacking aluminium.",
  );
  const named = found({ verdict: "named", hazards: [] });
  const [borneOut] = hazardFindings(view, new Map([[product, named]]));
  expect(borneOut).toMatchObject({ takenAs: { because: "identified" }, burns: "does-not-burn" });
  expect(borneOut?.treatment && treatmentSentence(borneOut.treatment)).toBeUndefined();
});

test("undecided readings leave the worst of what they leave, and no more", () => {
  const { view, product } = opened();
  const of = (change: Partial<Identification>) =>
    hazardFindings(view, new Map([[product, found(change)]]))[0];
  const mild = of({ hazards: [burning(0.2, "R152a", "R134a+R152a")] });
  expect(mild).toMatchObject({ takenAs: { name: "R152a" }, treatment: { harms: ["burns"] } });
  // One in two hundred is enough: what identify lists counts, whatever its probability.
  const rare = of({ hazards: [burning(0.006, "hydrocarbons")] });
  expect(rare?.takenAs?.name).toBe("R290");
  const quiet = of({
    families: [
      { id: "R134a", title: "R134a", kind: "pure", probability: 0.99 },
      { id: "R12", title: "R12", kind: "pure", probability: 0.006 },
    ],
  });
  // RCL 0.088 kg/m3 for R12, 0.21 for R134a: ASHRAE 34 table 4-1 (from memory).
  expect(quiet).toMatchObject({ takenAs: { name: "R12" }, burns: "does-not-burn" });
  expect(quiet?.treatment && treatmentSentence(quiet.treatment)).toMatch(/Nothing that it may/u);
  const strange = of({ verdict: "none-explains" });
  expect(strange).toMatchObject({ takenAs: { name: "R290" }, treatment: { proof: "unexplained" } });
});

test("a name that only its label holds up is none", () => {
  const { view, product } = opened();
  const narrow = found({
    overall: [{ fluid: "R134a", mean: 1, from: 0.98, to: 1 }],
    withoutLabel: { family: "hydrocarbons" },
  });
  const treated = treatments(view, new Map([[product, narrow]])).get(product);
  expect(treated?.proof).toBe("undecided");
});

test("the cautions of charging and running follow the readings, and a mark of flame outlasts them", () => {
  const ids = (weighed: Identification | undefined, change: object = {}) => {
    const { view, product } = opened(change);
    const treated = treatments(view, new Map(weighed ? [[product, weighed]] : []));
    const at = { stage: "charge", round: product } as const;
    return cautionsAt(view, at, treated).map(({ id }) => id);
  };
  const named = found({ verdict: "named" });
  expect(ids(undefined)).toEqual(expect.arrayContaining(["not-proven", "flammable-charge"]));
  expect(ids(named)).not.toContain("not-proven");
  expect(ids(named)).not.toContain("flammable-charge");
  expect(ids(named, { flammableMark: true })).toContain("flammable-charge");
  const doubted = found({ verdict: "named", hazards: [burning(0.02, "R134a+hydrocarbons")] });
  expect(ids(doubted)).toEqual(expect.arrayContaining(["not-proven", "flammable-charge"]));
});
