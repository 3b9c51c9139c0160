import { describe, expect, test } from "vitest";
import { climateOf, ozoneOf } from "./climate.ts";
import { ratedBlends } from "./named-blends.ts";
import { editions } from "./substance-facts.ts";

const half = (a: "R134a" | "R1234yf" | "R600a", b: "R1234yf" | "R728" | "R718") => [
  { fluid: a, fraction: 0.5 },
  { fluid: b, fraction: 0.5 },
];

describe("climateOf", () => {
  // AR4 table 2.14, AR5 table 8.A.1, AR6 table 7.SM.7.
  test.each([
    ["AR4", 1430],
    ["AR5", 1300],
    ["AR6", 1530],
  ] as const)("R134a in %s is %d", (edition, gwp) => {
    const sum = climateOf([{ fluid: "R134a", fraction: 1 }], edition);
    expect(sum).toMatchObject({ value: gwp, from: gwp, to: gwp, missing: [], trust: "published" });
  });

  test("less than 1 is from 0 to 1, and the higher end is the value", () => {
    const sum = climateOf(half("R134a", "R1234yf"), "AR5");
    expect(sum).toMatchObject({ value: 650.5, from: 650, to: 650.5 });
  });

  test("a component without a value leaves a lower bound and no sum", () => {
    const sum = climateOf(half("R134a", "R718"), "AR6");
    expect(sum).toMatchObject({ value: null, to: null, from: 765, missing: ["R718"] });
    expect(climateOf(half("R600a", "R728"), "AR5")).toMatchObject({ value: null, from: 0 });
  });

  test("says how far the weakest value may be trusted", () => {
    expect(climateOf(half("R600a", "R728"), "AR4").trust).toBe("memory");
    expect(climateOf(half("R134a", "R728"), "AR4").trust).toBe("published");
  });

  test("every named blend has a value in AR4 and AR6, or says what is missing", () => {
    for (const { parts, blend } of ratedBlends) {
      for (const edition of editions) {
        const { value, missing } = climateOf(parts, edition);
        expect(value === null, `${blend} ${edition}`).toBe(missing.length > 0);
        if (edition !== "AR5") expect(missing, blend).toEqual([]);
      }
    }
  });

  test("fractions that make no whole are a bug", () => {
    expect(() => climateOf([{ fluid: "R134a", fraction: 0.9 }], "AR4")).toThrow(RangeError);
    expect(() => climateOf([], "AR4")).toThrow(RangeError);
  });
});

test("ozone: chlorine counts, the rest is zero, shaky values are none", () => {
  expect(ozoneOf([{ fluid: "R12", fraction: 1 }]).value).toBe(1);
  expect(ozoneOf(half("R134a", "R1234yf")).value).toBe(0);
  expect(ozoneOf([{ fluid: "R13I1", fraction: 1 }]).value).toBeNull();
});
