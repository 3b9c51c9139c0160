import { describe, expect, test } from "vitest";
import { fluid as fluidOf, type FluidId, fluidIds } from "../../fluids/index.ts";
import { bulkAtTP } from "../bulk/bulk.ts";
import { type Material, materialOf } from "../bulk/material.ts";
import type { Part } from "../substances/composition.ts";
import { toMoles } from "../substances/composition.ts";
import { ratedBlends } from "../substances/named-blends.ts";
import { isothermsWithin, pressuresDown } from "./chart-range.ts";
import { phaseDiagram } from "./diagram.ts";
import type { PhaseDiagram } from "./diagram-shape.ts";
import type { ChartLine, ChartPoint } from "./line.ts";

const pure = (fluid: FluidId): Material => materialOf([{ fluid, fraction: 1 }]);
const named = (name: string): Material =>
  materialOf(toMoles(ratedBlends.find(({ blend }) => blend === name)?.parts ?? []));
const pointsOf = ({ pieces }: ChartLine): readonly ChartPoint[] => pieces.flat();
const allLines = ({ bubble, dew, isotherms, fractions }: PhaseDiagram): readonly ChartLine[] => [
  bubble,
  dew,
  ...isotherms.map(({ line }) => line),
  ...fractions.map(({ line }) => line),
];

function sound(diagram: PhaseDiagram, name: string): void {
  for (const line of allLines(diagram)) {
    for (const point of pointsOf(line)) {
      for (const value of Object.values(point)) expect(Number.isFinite(value), name).toBe(true);
      expect(point.p > 0 && point.rho > 0, name).toBe(true);
    }
    for (const { value } of line.gaps) expect(Number.isFinite(value), name).toBe(true);
  }
}

describe("pure fluids", () => {
  test.each(fluidIds)("%s has unbroken lines that meet at the critical point", (id) => {
    const diagram = phaseDiagram(pure(id), "pressure-enthalpy");
    sound(diagram, id);
    for (const line of allLines(diagram)) expect([line.gaps, line.pieces.length]).toEqual([[], 1]);
    const { critical } = fluidOf(id);
    const [liquid, vapour] = [diagram.bubble, diagram.dew].map((line) => pointsOf(line).at(-1));
    expect(liquid?.T).toBe(critical.T);
    // The phases of some equations differ by 0.2 % of density at their own critical point: its rounding.
    expect(Math.abs((liquid?.h ?? NaN) - (vapour?.h ?? NaN))).toBeLessThan(
      0.02 * ((pointsOf(diagram.dew)[0]?.h ?? NaN) - (pointsOf(diagram.bubble)[0]?.h ?? NaN)),
    );
    expect(diagram.critical?.p).toBe(critical.p);
    expect(diagram.isotherms.length >= 8 && diagram.isotherms.length <= 15).toBe(true);
  });

  test("an isotherm is level where the fluid boils, and falls everywhere else", () => {
    const { isotherms } = phaseDiagram(pure("R134a"), "pressure-enthalpy");
    for (const { T, line } of isotherms) {
      const points = pointsOf(line);
      const level = points.filter(({ p }, i) => p === points[i + 1]?.p);
      expect(level.length).toBe(T < 374.21 ? 1 : 0);
      for (const [i, { p }] of points.entries()) {
        expect(p).toBeLessThanOrEqual(points[i - 1]?.p ?? Infinity);
      }
    }
  });

  test("the lines only, without isotherms", () => {
    const { isotherms, fractions } = phaseDiagram(pure("R290"), "pressure-temperature");
    expect([isotherms, fractions]).toEqual([[], []]);
  });
});

describe("blends", () => {
  test.each(["R407C", "R410A", "R441A", "HC 60/40", "R445A"])("%s", (name) => {
    const material = named(name);
    const diagram = phaseDiagram(material, "pressure-enthalpy");
    sound(diagram, name);
    const [bubble, dew] = [pointsOf(diagram.bubble), pointsOf(diagram.dew)];
    expect(bubble.length).toBeGreaterThan(20);
    for (const [i, { T, p }] of bubble.entries()) {
      const partner = dew[i];
      // Bubble pressure is above dew pressure at every temperature.
      if (partner?.T === T) expect(p).toBeGreaterThan(partner.p);
    }
    // Just above the bubble point there is one phase, just below it two.
    const middle = bubble[10];
    const phases = (factor: number) => {
      const bulk = bulkAtTP(material, middle?.T ?? NaN, factor * (middle?.p ?? NaN));
      return bulk.kind === "bulk" ? bulk.phases.length : 0;
    };
    expect([phases(1.0001), phases(0.9999)]).toEqual([1, 2]);
    // Where the lines end, the gap says why.
    expect(diagram.bubble.gaps.map(({ because }) => because)).toEqual(["no-solution"]);
  });

  test("a refrigerant with nitrogen: what cannot be drawn is a gap with its reason", () => {
    const moles: Part[] = [
      { fluid: "R134a", fraction: 0.9 },
      { fluid: "R728", fraction: 0.1 },
    ];
    const diagram = phaseDiagram(materialOf(moles), "pressure-enthalpy");
    sound(diagram, "R134a with nitrogen");
    expect(pointsOf(diagram.dew).length).toBeGreaterThan(20);
  });
});

describe("scales", () => {
  test("round isotherms", () => {
    const celsius = isothermsWithin({ from: 206, to: 430 }).map((T) => Math.round(T - 273.15));
    expect(celsius[0]).toBe(-60);
    expect(new Set(celsius.map((t) => t % 20))).toEqual(new Set([0, -0]));
    expect(isothermsWithin({ from: 300, to: 299 })).toEqual([]);
  });

  test("pressures include both ends", () => {
    const pressures = pressuresDown(1e6, 1e4, 3);
    expect(pressures[0]).toBe(1e6);
    expect(pressures[1]).toBeCloseTo(1e5, 6);
    expect(pressures[2]).toBeCloseTo(1e4, 6);
  });
});
