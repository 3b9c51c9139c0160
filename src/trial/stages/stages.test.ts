import { expect, test } from "vitest";
import { logWithCar } from "../demonstration/car.fixture.ts";
import type { InventedLog } from "../demonstration/log.ts";
import type { BodyOf } from "../events.ts";
import { project } from "../project.ts";

const noon = "2026-06-14T12:00:00Z";

const opened = (compressor: BodyOf<"vehicle-described">["compressor"] = "fixed-cycling") =>
  logWithCar(noon, { compressor, cabinVolume: { value: 3, unit: "m3" } });

const stagesOf = (log: InventedLog) => project(log.events).stages;

test("an empty log has all its stages, each saying what it needs", () => {
  const { stages } = project([]);
  expect(stages.map(({ stage }) => stage)).toEqual([
    "plan",
    "prove",
    "recover",
    "evacuate",
    "charge",
    "run",
    "identify",
    "restore",
    "compare",
    "hazards",
    "claims",
    "publish",
  ]);
  expect(stages.every(({ status }) => status === "not-started")).toBe(true);
  expect(
    stages.every(({ requirements }) => requirements.every(({ detail }) => detail !== "")),
  ).toBe(true);
});

test("Recover to Run come once a product", () => {
  const log = opened();
  const products = ["P", "Q"].map((name) =>
    log.add(noon, "product-listed", { name, claims: [], flammableMark: false, fluid: "R1234yf" }),
  );
  const rounds = stagesOf(log).filter(({ stage }) => stage === "charge");
  expect(rounds.map(({ round }) => round)).toEqual(products);
});

test("a cycling clutch is asked for its two ends first", () => {
  const forms = (log: InventedLog) =>
    stagesOf(log)
      .find(({ stage }) => stage === "prove")
      ?.prompts.find(({ id }) => id === "low-side")?.forms;
  expect(forms(opened())).toEqual(["lowest", "highest", "steady"]);
  expect(forms(opened("variable"))?.[0]).toBe("steady");
});

test("what is still to be read is named as its field is", () => {
  const prove = stagesOf(opened()).find(({ stage }) => stage === "prove");
  const missing = prove?.requirements.find(({ id }) => id === "static")?.detail ?? "";
  for (const id of ["static-low", "metal-temperature"]) {
    const label = prove?.prompts.find((prompt) => prompt.id === id)?.label ?? "no such field";
    expect(missing).toContain(label.toLowerCase());
  }
});

test("the return air says why it is worth the walk", () => {
  const prompts = stagesOf(opened()).find(({ stage }) => stage === "run")?.prompts ?? [];
  const why = prompts.filter(({ id }) => id.startsWith("return-air")).map((prompt) => prompt.why);
  expect(why).toHaveLength(2);
  for (const words of why) expect(words).toMatch(/worth more than any other refinement/iu);
});

test("cautions for flammable products appear with each that is not proven, with their number for this cabin", () => {
  const ids = (log: InventedLog) =>
    stagesOf(log)
      .find(({ stage }) => stage === "charge")
      ?.cautions.map(({ id }) => id);
  expect(ids(opened())).not.toContain("flammable-charge");
  const declared = opened();
  declared.add(noon, "product-listed", {
    name: "P",
    claims: [],
    flammableMark: false,
    fluid: "R134a",
  });
  // A label is a claim.
  expect(ids(declared)).toContain("flammable-charge");
  const silent = opened();
  silent.add(noon, "product-listed", {
    name: "Silent",
    claims: [],
    flammableMark: false,
    labelMass: { value: 228, unit: "g" },
  });
  expect(ids(silent)).toContain("flammable-charge");
  const caution = stagesOf(silent)[0]?.cautions.find(({ id }) => id === "flammable-charge");
  // 0.228 kg in 3 m³ is 0.076 kg/m³: twice 0.038.
  expect(caution?.reason).toMatch(/2\.0 times that limit, 8\.0 times the quarter/u);
});

test("every caution has a reason and a source, and none offers what must not be offered", () => {
  const log = opened();
  log.add(noon, "product-listed", { name: "P", claims: [], flammableMark: true });
  const cautions = stagesOf(log).flatMap((stage) => stage.cautions);
  expect(cautions.length).toBeGreaterThan(15);
  for (const { lead, text, reason, source } of cautions) {
    expect(lead).toMatch(/^(?:\S+ ){1,4}\S+\.$/u);
    expect(text.length).toBeGreaterThan(20);
    expect(reason.length).toBeGreaterThan(20);
    expect(source).not.toBe("");
    expect(text).not.toMatch(/flame test|bypass|jumper/iu);
  }
});

test("a confirmation can be taken back, and status follows", () => {
  const log = opened();
  const say = (confirmed: boolean, minute: number) =>
    log.add(`2026-06-14T12:0${minute}:00Z`, "item-confirmed", {
      stage: "publish",
      item: "answer-read",
      confirmed,
    });
  const met = () =>
    stagesOf(log)
      .find(({ stage }) => stage === "publish")
      ?.requirements.find(({ id }) => id === "answer-read")?.met;
  expect(met()).toBe(false);
  say(true, 1);
  expect(met()).toBe(true);
  say(false, 2);
  expect(met()).toBe(false);
});
