import { describe, expect, test } from "vitest";
import { blendByMass, blendInfo, namedBlends, parseBlendFile } from "./blends.ts";

describe("named blends", () => {
  test("are found whatever the case and dashes", () => {
    expect(blendInfo("R-441A")?.name).toBe("R441A");
    expect(blendInfo("hc 60/40")?.safetyClass).toBeNull();
    expect(blendInfo("R999Z")).toBeUndefined();
    expect(namedBlends).toHaveLength(25);
  });

  // Corroborates the recalled compositions: AR4 GWPs of the components (IPCC AR4 WG1 table 2.14; of
  // hydrocarbons and the olefin, the small usual figures), and the blends' published sums.
  test.each([
    ["R404A", 3922],
    ["R406A", 1943],
    ["R407C", 1774],
    ["R410A", 2088],
    ["R413A", 2053],
    ["R437A", 1805],
    ["R450A", 605],
    ["R513A", 631],
  ])("%s has the published GWP %d as the sum over its masses", (name, published) => {
    const gwp: Readonly<Record<string, number>> = {
      R22: 1810,
      R32: 675,
      R125: 3500,
      R134a: 1430,
      R142b: 2310,
      R143a: 4470,
      R218: 8830,
      R600: 4,
      R600a: 3,
      R601: 5,
      R1234yf: 4,
      "R1234ze(E)": 7,
    };
    const sum = blendInfo(name)?.shares.reduce(
      (total, { fluid, mass }) => total + mass * (gwp[fluid] ?? NaN),
      0,
    );
    expect(Math.round(sum ?? 0)).toBe(published);
  });

  test("mass fractions become mole fractions", () => {
    const { mixture, z } = blendByMass(blendInfo("R410A")?.shares ?? []);
    expect(mixture.ids).toEqual(["R32", "R125"]);
    // 50/52.024 and 50/120.02, by hand.
    expect(z[0]).toBeCloseTo(0.6976, 4);
    expect(() => blendByMass([{ fluid: "R290", mass: 0 }])).toThrow(RangeError);
    expect(() => blendByMass([{ fluid: "R290", mass: -1 }])).toThrow(RangeError);
  });

  test("masses that do not sum to 100 % and unknown fluids are refused", () => {
    const file = (fluid: string, massPercent: number): unknown => ({
      schema: "coldproof-blends/1",
      sources: { a: "somewhere" },
      blends: [{ name: "X", class: null, source: "a", components: [{ fluid, massPercent }] }],
    });
    expect(() => parseBlendFile(file("R290", 99))).toThrow("sum to 0.99");
    expect(() => parseBlendFile(file("R999", 100))).toThrow("no fluid R999");
    expect(() => parseBlendFile({ schema: "x" })).toThrow("accepted coldproof-blends/1");
  });
});
