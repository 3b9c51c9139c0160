import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parseFluidFile } from "./fluid-file.ts";
import {
  fluid,
  fluidIds,
  fluidInfo,
  isFluidId,
  saturatedPhases,
  saturationAtT,
  stateTP,
  type FluidId,
} from "./index.ts";
import { parseSaturationFile } from "./saturation-file.ts";

/** Without a liquid at 273.15 K the zero is that of the data file. */
const withoutIir: readonly FluidId[] = ["R718", "R728", "R732", "R740"];

describe("every data file", () => {
  for (const id of fluidIds) {
    test(`${id} is read, cites its source and keeps its own gas constant`, () => {
      const info = fluidInfo(id);
      expect(info.id).toBe(id);
      expect(info.source.length).toBeGreaterThan(40);
      // CODATA values since 1986; each equation uses the one of its fit.
      expect(Math.abs(info.R - 8.3145)).toBeLessThan(3e-4);
      expect(info.Tmin).toBeLessThan(info.Tc);
      expect(info.Tmax).toBeGreaterThan(info.Tc);
      expect(fluid(id)).toBe(fluid(id));
    });

    test(`${id} has its critical point near the listed one`, () => {
      const { critical, info } = fluid(id);
      // R40's equation overshoots its listed point, R732's a little: kept as published.
      const [room, roomRho] = id === "R40" ? [6e-3, 0.07] : [2e-4, 0.025];
      expect(Math.abs(critical.T / info.Tc - 1)).toBeLessThan(room);
      expect(Math.abs(critical.rho / info.rhoc - 1)).toBeLessThan(roomRho);
    });

    test(`${id} has the zero of enthalpy and entropy that it should`, () => {
      const pure = fluid(id);
      const saturated = saturationAtT(pure, 273.15);
      expect(saturated.kind === "saturated").toBe(!withoutIir.includes(id));
      if (saturated.kind !== "saturated") return;
      const { liquid } = saturatedPhases(pure, saturated);
      expect(liquid.h / pure.info.M).toBeCloseTo(200e3, 5);
      expect(liquid.s / pure.info.M).toBeCloseTo(1e3, 8);
    });
  }
});

test("water's zero is that of its authors: u = s = 0 for the liquid at the triple point", () => {
  // Wagner and Pruß, J. Phys. Chem. Ref. Data 31 (2002) 387, section 6.1; met to their rounding.
  const pure = fluid("R718");
  const saturated = saturationAtT(pure, 273.16);
  if (saturated.kind !== "saturated") expect.fail(saturated.reason);
  const { liquid } = saturatedPhases(pure, saturated);
  expect(Math.abs((liquid.h - saturated.p / liquid.rho) / pure.info.M)).toBeLessThan(1e-2);
  expect(Math.abs(liquid.s / pure.info.M)).toBeLessThan(1e-4);
});

test("designations are recognised as spelled", () => {
  expect(isFluidId("R1234ze(E)")).toBe(true);
  expect(isFluidId("R1234zeE")).toBe(false);
  expect(isFluidId("toString")).toBe(false);
  expect(() => fluid("R1" as FluidId)).toThrow(RangeError);
});

describe("bad data is refused with its place", () => {
  const text = readFileSync("data/fluids/R1234yf.json", "utf8");
  interface Draft {
    readonly residual: [{ d: number[]; t: number[] }];
    readonly idealGas: { readonly terms: unknown[] };
  }
  const broken = (edit: (file: Draft) => void): unknown => {
    const file = JSON.parse(text) as Draft;
    edit(file);
    return file;
  };
  const cases: readonly [string, (file: Draft) => void, RegExp][] = [
    ["schema", (file) => Object.assign(file, { schema: "other/9" }), /schema: found other\/9/],
    ["missing number", (file) => Object.assign(file, { molarMass: null }), /molarMass: a finite/],
    ["negative", (file) => Object.assign(file, { gasConstant: -1 }), /gasConstant: found -1/],
    [
      "unequal columns",
      (file) => file.residual[0].t.push(1),
      /residual\[0\]\.t: found 11 numbers, accepted 10/,
    ],
    [
      "unknown term",
      (file) => Object.assign(file.residual[0], { type: "magic" }),
      /residual\[0\]\.type: found magic/,
    ],
    [
      "fractional density exponent",
      (file) => (file.residual[0].d[0] = 1.5),
      /residual\[0\]\.d: accepted are whole numbers/,
    ],
    ["no list", (file) => Object.assign(file, { residual: {} }), /residual: a list/],
    [
      "two leads",
      (file) => {
        const { terms } = file.idealGas;
        terms.push(terms[0]);
      },
      /exactly one lead/,
    ],
  ];
  for (const [name, edit, message] of cases) {
    test(name, () => {
      expect(() => parseFluidFile(broken(edit))).toThrow(message);
    });
  }

  test("saturation file", () => {
    expect(() => parseSaturationFile({ schema: "saturation-expansions/0" })).toThrow(/schema/);
    expect(() => parseSaturationFile([])).toThrow(/object/);
  });
});

test("a numeric example for the reader: R134a vapour at 0 °C and 1 atm is a gas", () => {
  const state = stateTP(fluid("R134a"), 273.15, 101325);
  expect(state).toMatchObject({ kind: "state", phase: "gas", q: null });
});
