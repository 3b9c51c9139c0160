import { describe, expect, test } from "vitest";
import {
  convert,
  dimensions,
  formatDifference,
  formatQuantity,
  formatValue,
  formatWithUncertainty,
  fromSI,
  isUnit,
  parseNumber,
  parseQuantity,
  siUnit,
  toSI,
  unitsOf,
  unitSize,
} from "./index.ts";

const AIR = 101325;
const said = (text: string) => text.replaceAll("\u202f", " ").replaceAll("\u2212", "-");

describe("the table of units", () => {
  test("every dimension has an SI unit and every label parses back to its unit", () => {
    for (const dimension of dimensions) {
      expect(unitsOf(dimension).length).toBeGreaterThan(0);
      expect(isUnit(siUnit(dimension), dimension)).toBe(true);
      for (const { id, label } of unitsOf(dimension)) {
        for (const word of [id, label === "" ? id : label]) {
          if (id === "1") continue;
          // "bar" as a word is the absolute unit only where no gauge unit is the field's own.
          expect(parseQuantity(`2 ${word}`, dimension), `${dimension} ${word}`).toEqual({
            kind: "quantity",
            quantity: { value: 2, unit: id },
          });
        }
      }
    }
  });

  test("no two units of a dimension share a spelling, and an id has one size everywhere", () => {
    const sizes = new Map<string, number>();
    for (const dimension of dimensions) {
      const spellings = unitsOf(dimension).flatMap((unit) => unit.spellings);
      expect(new Set(spellings).size, dimension).toBe(spellings.length);
      for (const { id, size } of unitsOf(dimension)) {
        expect(sizes.get(id) ?? size, id).toBe(size);
        sizes.set(id, size);
      }
    }
  });

  // NIST SP 811 (2008), appendix B.8: conversion factors to seven digits (from memory of the printed table).
  test.each([
    ["psia", 6894.757],
    ["inHg", 3386.389],
    ["mmHg", 133.3224],
    ["micron", 0.1333224],
    ["lb", 0.4535924],
    ["oz", 0.02834952],
    ["ft3", 0.02831685],
    ["mph", 0.44704],
    ["Btu/lb", 2326],
    ["lb/ft3", 16.01846],
  ])("%s has the published size %d", (unit, size) => {
    expect(unitSize(unit) / size).toBeCloseTo(1, 6);
  });
});

describe("conversion", () => {
  test("temperatures and references", () => {
    expect(toSI({ value: 80, unit: "°F" })).toBeCloseTo(299.8166667, 6);
    expect(toSI({ value: -40, unit: "°F" })).toBeCloseTo(toSI({ value: -40, unit: "°C" }), 10);
    expect(toSI({ value: 0, unit: "psig" }, AIR)).toBe(AIR);
    expect(fromSI(toSI({ value: 29.5, unit: "inHg(vac)" }, AIR), "inHg(vac)", AIR)).toBeCloseTo(
      29.5,
      12,
    );
    expect(convert({ value: 0.5, unit: "inHg" }, "Pa").value).toBeCloseTo(1693.19, 2);
  });

  // Arithmetic: 102 mmHg of vacuum is 87.7 kPa absolute and 4.02 inHg of vacuum.
  test("102 mmHg of vacuum", () => {
    const p = toSI({ value: 102, unit: "mmHg(vac)" }, AIR);
    expect(Math.abs(p - 87.7e3)).toBeLessThan(100);
    expect(fromSI(p, "inHg(vac)", AIR)).toBeCloseTo(4.02, 2);
  });

  // Arithmetic: 500 micron is 66.66 Pa and 29.902 inHg of vacuum at sea level.
  test("500 micron", () => {
    const p = toSI({ value: 500, unit: "micron" });
    expect(p).toBeCloseTo(66.66, 2);
    expect(Math.abs(fromSI(p, "inHg(vac)", AIR) - 29.902)).toBeLessThan(0.005);
  });

  test("a gauge unit without the air, an unknown unit and no number are bugs", () => {
    expect(() => toSI({ value: 1, unit: "psig" })).toThrow(RangeError);
    expect(() => fromSI(1e5, "inHg(vac)")).toThrow(RangeError);
    expect(() => toSI({ value: 1, unit: "furlong" })).toThrow(RangeError);
    expect(() => toSI({ value: 1, unit: "__proto__" })).toThrow(RangeError);
    expect(() => toSI({ value: NaN, unit: "Pa" })).toThrow(RangeError);
    expect(() => toSI({ value: 1, unit: "psig" }, Infinity)).toThrow(RangeError);
    expect(() => unitSize("constructor")).toThrow(RangeError);
  });
});

describe("what people type", () => {
  test.each([
    ["85 psig", "pressure", 85, "psig"],
    ["85psig", "pressure", 85, "psig"],
    ["80 °F", "temperature", 80, "°F"],
    ["80F", "temperature", 80, "°F"],
    ["-10 deg C", "temperature", -10, "°C"],
    ["5 lb 3 oz", "mass", 5.1875, "lb"],
    ["5lb3oz", "mass", 5.1875, "lb"],
    ["1 h 30 min", "duration", 1.5, "h"],
    ["1,5 bar", "pressure", 1.5, "bar"],
    ["−0.31 bar(g)", "pressure", -0.31, "bar(g)"],
    ["380 micron", "pressure", 380, "micron"],
    ["29.5 inHg vac", "pressure", 29.5, "inHg(vac)"],
    ["29.5 in. Hg vacuum", "pressure", 29.5, "inHg(vac)"],
    ["1,234.5 psia", "pressure", 1234.5, "psia"],
    ["1.234,5 psia", "pressure", 1234.5, "psia"],
    ["17 546 micron", "pressure", 17546, "micron"],
    ["1e-3 kg", "mass", 0.001, "kg"],
    ["45 %", "ratio", 45, "%"],
  ] as const)("%s", (text, dimension, value, unit) => {
    expect(parseQuantity(text, dimension)).toEqual({ kind: "quantity", quantity: { value, unit } });
  });

  test("a number alone takes the field's unit, and psi its reference", () => {
    const at = (text: string, unit: string) => parseQuantity(text, "pressure", unit);
    expect(at("85", "psig")).toMatchObject({ quantity: { value: 85, unit: "psig" } });
    expect(at("85 psi", "psig")).toMatchObject({ quantity: { value: 85, unit: "psig" } });
    expect(at("5.6 bar", "bar")).toMatchObject({ quantity: { value: 5.6, unit: "bar" } });
    expect(at("710 mmHg", "inHg(vac)").kind).toBe("invalid");
    expect(at("5.6 bar", "psig").kind).toBe("invalid");
    expect(at("29.92 inHg", "hPa")).toMatchObject({ quantity: { unit: "inHg" } });
    expect(at("5.6 bar", "bar(g)")).toMatchObject({
      kind: "invalid",
      accepted: 'bar(g) or bar abs: "bar" alone does not say which',
    });
  });

  test.each([
    ["1,234.5.6 psig", "pressure", "finite number"],
    ["12 furlong", "pressure", "psig"],
    ["12 kg", "pressure", "a unit out of"],
    ["1,234 g", "mass", "either 1.234 or 1234"],
    ["NaN", "pressure", "a number first"],
    ["Infinity psig", "pressure", "a number first"],
    ["1e999 psig", "pressure", "finite number"],
    ["", "mass", "a number with a unit"],
    ["85 psi", "pressure", "psig or psia"],
    ["85", "pressure", "a unit out of"],
    ["5 mPa", "pressure", "a unit out of"],
    ["-500 °C", "temperature", "absolute zero"],
    ["-1 bar", "pressure", "zero or more"],
    ["3 oz 5 lb", "mass", "a unit out of"],
    ["9".repeat(500), "mass", "ordinary length"],
    ["1 constructor", "mass", "a unit out of"],
  ] as const)("%s is refused", (text, dimension, hint) => {
    const parsed = parseQuantity(text, dimension);
    expect(parsed.kind).toBe("invalid");
    expect(parsed.kind === "invalid" && parsed.accepted).toContain(hint);
    expect(JSON.stringify(parsed).length).toBeLessThan(500);
  });

  test("a default unit of another dimension is a bug", () => {
    expect(() => parseQuantity("1", "mass", "psig")).toThrow(RangeError);
  });

  test("numbers", () => {
    expect(parseNumber(" +.5 ")).toEqual({ kind: "number", value: 0.5 });
    expect(parseNumber("5.")).toEqual({ kind: "number", value: 5 });
    expect(parseNumber("0,123")).toEqual({ kind: "number", value: 0.123 });
    expect(parseNumber("1,234,567")).toEqual({ kind: "number", value: 1234567 });
    for (const text of ["", "--1", "1e", "0x10", "1_000", "1,23,4", ".", "e5"]) {
      expect(parseNumber(text).kind, text).toBe("invalid");
    }
  });
});

describe("what people read", () => {
  test("digits come from the uncertainty, or from the instrument", () => {
    expect(said(formatValue(82.1437, "psig", 1.34))).toBe("82.1 psig");
    expect(said(formatValue(82.1437, "psig", 13.4))).toBe("82 psig");
    expect(said(formatValue(8214.37, "Pa", 134))).toBe("8210 Pa");
    expect(said(formatValue(101325, "Pa"))).toBe("101 325 Pa");
    expect(said(formatValue(-0.004, "bar(g)"))).toBe("0.00 bar(g)");
    expect(said(formatValue(0.5, "1"))).toBe("0.500");
    expect(said(formatWithUncertainty(82.1437, "psig", 1.34))).toBe("82.1 ± 1.3 psig");
    expect(said(formatWithUncertainty(1, "kg", 0.0999))).toBe("1.00 ± 0.10 kg");
    expect(said(formatDifference(-3.21, "psig", 0.44))).toBe("-3.21 psi");
    expect(said(formatDifference(2.5, "°C"))).toBe("2.5 K");
  });

  test("a reading keeps the digits with which it was said", () => {
    expect(said(formatQuantity({ value: 85.25, unit: "psig" }))).toBe("85.25 psig");
    expect(said(formatQuantity({ value: -17546, unit: "micron" }))).toBe("-17 546 micron");
    expect(said(formatQuantity({ value: 5.1875, unit: "lb" }, { poundsAndOunces: true }))).toBe(
      "5 lb 3.0 oz",
    );
    expect(said(formatQuantity({ value: 0.9999, unit: "lb" }, { poundsAndOunces: true }))).toBe(
      "1 lb 0.0 oz",
    );
    expect(() => formatQuantity({ value: NaN, unit: "lb" })).toThrow(RangeError);
  });
});
