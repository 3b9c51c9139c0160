import { describe, expect, test } from "vitest";
import { compute } from "./index.ts";

function answered(name: string, input: unknown) {
  const answer = compute(name, input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer as typeof answer & { result: Record<string, unknown> };
}
function issuesOf(input: unknown) {
  const answer = compute("flammability", input);
  if (answer.kind !== "invalid") throw new Error(JSON.stringify(answer));
  return answer.issues;
}
const two = (a: object, b: object) => ({ blend: [a, b] });

describe("a fluid or a blend", () => {
  test("names in any spelling", () => {
    expect(answered("climate", { fluid: "r-134A" }).result["name"]).toBe("R134a");
    expect(answered("climate", { blend: "r 441 a" }).result["name"]).toBe("R441A");
    expect(answered("climate", { blend: "hc-50/40/10" }).result["name"]).toBe("HC 50/40/10");
  });

  test.each([
    ["fractions", 0.7, 0.3],
    ["percent", 70, 30],
    ["text", "70 %", "30 %"],
    ["text and number", "70 %", 0.3],
  ])("%s", (_, a, b) => {
    const { result } = answered("climate", {
      ...two({ fluid: "R134a", mass: a }, { fluid: "R290", mass: b }),
      edition: "AR4",
    });
    expect(result["name"]).toBe("R134a/R290 (70/30 % by mass)");
    const [gwp] = result["gwp"] as { value: number }[];
    expect(gwp?.value).toBeCloseTo(0.7 * 1430 + 0.3 * 3.3, 9);
  });

  test("mole fractions become mass fractions", () => {
    const { result } = answered("climate", {
      ...two({ fluid: "R134a", mole: 0.5 }, { fluid: "R728", mole: 0.5 }),
      edition: "AR6",
    });
    // M from the equations' publications: 102.032 and 28.0135 g/mol.
    const [gwp] = result["gwp"] as { value: number }[];
    expect(gwp?.value).toBeCloseTo((1530 * 102.032) / (102.032 + 28.01348), 6);
  });

  test.each([
    ["neither", {}, "fluid", /either fluid or blend/],
    ["both", { fluid: "R134a", blend: "R441A" }, "fluid", /either fluid or blend/],
    ["a blend as fluid", { fluid: "R441A" }, "fluid", /R441A is a blend/],
    ["a fluid as blend", { blend: "R134a" }, "blend", /R134a is a pure fluid/],
    ["an unknown name", { blend: "R999Z" }, "blend", /R441A/],
    ["one part", { blend: [{ fluid: "R134a", mass: 1 }] }, "blend", /2 to 8 parts/],
    [
      "an unknown part",
      two({ fluid: "R999", mass: 0.5 }, { fluid: "R290", mass: 0.5 }),
      "blend[0].fluid",
      /a pure fluid out of/,
    ],
    [
      "no amount",
      two({ fluid: "R134a" }, { fluid: "R290", mass: 0.5 }),
      "blend[0].mass",
      /either mass or mole/,
    ],
    [
      "two amounts",
      two({ fluid: "R134a", mass: 0.5, mole: 0.5 }, { fluid: "R290", mass: 0.5 }),
      "blend[0].mass",
      /either mass or mole/,
    ],
    [
      "mass and mole",
      two({ fluid: "R134a", mass: 0.5 }, { fluid: "R290", mole: 0.5 }),
      "blend[1].mole",
      /all parts by mass or all by mole/,
    ],
    [
      "a fluid twice",
      two({ fluid: "R134a", mass: 0.5 }, { fluid: "r-134a", mass: 0.5 }),
      "blend[1].fluid",
      /each fluid once/,
    ],
    [
      "nothing of a part",
      two({ fluid: "R134a", mass: 0 }, { fluid: "R290", mass: 1 }),
      "blend[0].mass",
      /above 0/,
    ],
    [
      "a sum that is no whole",
      two({ fluid: "R134a", mass: 50 }, { fluid: "R290", mass: 49 }),
      "blend",
      /these sum to 99/,
    ],
    [
      "words for an amount",
      two({ fluid: "R134a", mass: "half" }, { fluid: "R290", mass: 0.5 }),
      "blend[0].mass",
      /above 0/,
    ],
  ])("%s is an issue", (_, input, field, accepted) => {
    const issues = issuesOf(input);
    expect(issues[0]?.field).toBe(field);
    expect(issues[0]?.accepted).toMatch(accepted);
  });

  test("every wrong part is named at once", () => {
    const issues = issuesOf(two({ fluid: "R999", mass: 0.5 }, { fluid: "R290", mass: -1 }));
    expect(issues.map(({ field }) => field)).toEqual(["blend[0].fluid", "blend[1].mass"]);
  });

  test("nine parts are too many", () => {
    const fluids = ["R12", "R22", "R32", "R40", "R124", "R125", "R134a", "R142b", "R143a"];
    const issues = issuesOf({ blend: fluids.map((fluid) => ({ fluid, mass: 1 / 9 })) });
    expect(issues[0]).toMatchObject({ field: "blend", value: "9 parts" });
  });
});

describe("flammability", () => {
  test("R441A: rule, limits by table, sources", () => {
    const { result, sources, assumptions } = answered("flammability", { blend: "R441A" });
    expect(result).toMatchObject({ class: "A3", burns: "yes", rule: "le-chatelier" });
    const tables = (result["limits"] as { table: string }[]).map(({ table }) => table);
    expect(tables).toEqual(["ashrae", "isoEn", "blend"]);
    expect(sources.some((source) => source.startsWith("class: ASHRAE 34"))).toBe(true);
    expect(assumptions?.some((text) => text.startsWith("Le Chatelier"))).toBe(true);
  });

  test("R134a with propane: no number, treated as burning", () => {
    const { result, cautions } = answered(
      "flammability",
      two({ fluid: "R134a", mass: 0.9 }, { fluid: "R290", mass: 0.1 }),
    );
    expect(result).toMatchObject({
      class: null,
      burns: "treat-as-burning",
      rule: "none",
      because: "part-that-does-not-burn",
      lfl: null,
      limits: [],
    });
    expect(cautions.some((text) => text.startsWith("Burns:"))).toBe(true);
    expect(cautions.some((text) => text.startsWith("Fluorinated"))).toBe(true);
  });

  test("an unlisted hydrocarbon blend has no class but says what it is like", () => {
    const { result } = answered("flammability", { blend: "HC 60/40" });
    expect(result).toMatchObject({ class: null, behavesAs: "A3", burns: "yes" });
  });

  test("methyl chloride warns of itself", () => {
    const { result, cautions } = answered("flammability", { fluid: "R40" });
    expect(result).toMatchObject({ class: "B2", lfl: { volumePercent: 8.1 } });
    expect(cautions.some((text) => text.includes("aluminium"))).toBe(true);
  });

  test("shaky facts are shown as such", () => {
    const { result } = answered("flammability", { fluid: "R13I1" });
    const facts = result["facts"] as { trust: string }[];
    expect(facts.some(({ trust }) => trust === "shaky")).toBe(true);
  });
});

describe("climate", () => {
  test("a mass as carbon dioxide, by every edition", () => {
    const { result } = answered("climate", { fluid: "R134a", mass: "2 kg" });
    expect(result["gwp"]).toMatchObject([
      { edition: "AR4", co2Equivalent: 2860 },
      { edition: "AR5", co2Equivalent: 2600 },
      { edition: "AR6", co2Equivalent: 3060 },
    ]);
  });

  test("no value stays no value", () => {
    const { result, assumptions } = answered("climate", {
      blend: "R441A",
      edition: "AR5",
      mass: 1,
    });
    expect(result["gwp"]).toMatchObject([{ value: null, from: 0, to: null, co2Equivalent: null }]);
    expect(assumptions?.[0]).toMatch(/AR5 has no value for R170, R290, R600a, R600/);
  });
});
