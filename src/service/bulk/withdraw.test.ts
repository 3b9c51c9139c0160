import { describe, expect, test } from "vitest";
import type { FluidId } from "../../fluids/index.ts";
import { type Part, toMoles } from "../substances/composition.ts";
import { ratedBlends } from "../substances/named-blends.ts";
import { bulkAtTRho } from "./bulk.ts";
import { materialOf } from "./material.ts";
import { type Withdrawal, withdraw } from "./withdraw.ts";

const named = (name: string): readonly Part[] => {
  const blend = ratedBlends.find(({ blend: known }) => known === name);
  if (!blend) throw new Error(name);
  return toMoles(blend.parts);
};
const cylinder = { T: 298.15, volume: 12e-3, mass: 5, until: 0.95, steps: 19 } as const;
const run = (withdrawal: Withdrawal) => {
  const series = withdraw(withdrawal);
  expect(series.failure).toBeUndefined();
  return series.points;
};
const of = (parts: readonly Part[] | undefined, fluid: FluidId): number =>
  parts?.find((part) => part.fluid === fluid)?.fraction ?? 0;

describe.each(["top", "bottom"] as const)("from the %s", (from) => {
  test.each(["R407C", "R441A", "HC 60/40", "R513A"])("%s: every component is conserved", (name) => {
    const moles = named(name);
    const mass = name.startsWith("R441") || name.startsWith("HC") ? 3 : 5;
    const points = run({ ...cylinder, mass, moles, from });
    const first = points[0]?.remaining;
    for (const { withdrawn, left, remaining, collected } of points) {
      expect(Math.abs((withdrawn + left) / mass - 1)).toBeLessThan(1e-12);
      for (const { fluid } of moles) {
        const there = left * of(remaining, fluid) + withdrawn * of(collected, fluid);
        expect(Math.abs(there / (mass * of(first, fluid)) - 1), fluid).toBeLessThan(1e-9);
      }
    }
    expect(points.at(-1)?.left).toBeCloseTo(0.05 * mass, 9);
  });
});

test("vapour takes the light parts away, and pressure falls; liquid keeps both nearly", () => {
  // R32 and R125 boil at -51.7 and -48.1 °C, R134a at -26.1 °C (CoolProp 8.0.0): they are the light parts.
  const moles = named("R407C");
  const [top, bottom] = (["top", "bottom"] as const).map((from) =>
    run({ ...cylinder, moles, from, until: 0.8 }),
  );
  const fall = (points: typeof top) => 1 - (points?.at(-1)?.p ?? NaN) / (points?.[0]?.p ?? NaN);
  expect(fall(top)).toBeGreaterThan(0.15);
  expect(fall(bottom)).toBeLessThan(0.1);
  expect(of(top?.at(-1)?.remaining, "R32")).toBeLessThan(0.6 * 0.23);
  expect(Math.abs(of(bottom?.at(-1)?.collected, "R32") - 0.23)).toBeLessThan(0.01);
});

test("a pure fluid keeps its pressure while there is liquid", () => {
  const points = run({ ...cylinder, moles: [{ fluid: "R134a", fraction: 1 }], from: "top" });
  const wet = points.filter(({ liquidFraction }) => liquidFraction > 0);
  for (const { p } of wet) expect(p / (points[0]?.p ?? NaN)).toBeCloseTo(1, 9);
  expect(points.at(-1)?.liquidFraction).toBe(0);
});

test("without liquid the same vapour leaves at top and bottom, and its composition stays", () => {
  const moles = named("R407C");
  for (const from of ["top", "bottom"] as const) {
    const points = run({ ...cylinder, mass: 0.2, moles, from });
    for (const { drawn, remaining } of points) {
      expect(drawn).toBe("vapour");
      expect(of(remaining, "R32")).toBeCloseTo(0.23, 9);
    }
  }
});

// Rayleigh's equation: d ln n_i/d n = y_i/(x_i n), integrated with ten times smaller steps.
test("small steps are small enough", () => {
  const moles = named("R441A");
  const coarse = run({ ...cylinder, mass: 3, moles, from: "top", steps: 10, until: 0.9 });
  const fine = run({ ...cylinder, mass: 3, moles, from: "top", steps: 100, until: 0.9 });
  expect(Math.abs((coarse.at(-1)?.p ?? NaN) / (fine.at(-1)?.p ?? NaN) - 1)).toBeLessThan(2e-3);
});

test("air leaves with the vapour and never falls below nothing", () => {
  const moles: Part[] = [
    { fluid: "R134a", fraction: 0.97 },
    { fluid: "R728", fraction: 0.0237 },
    { fluid: "R732", fraction: 0.0063 },
  ];
  const points = run({ ...cylinder, moles, from: "top", steps: 10 });
  const nitrogen = points.map(({ remaining }) => of(remaining, "R728"));
  for (const [i, each] of nitrogen.entries()) {
    expect(each).toBeGreaterThanOrEqual(0);
    expect(each).toBeLessThanOrEqual((nitrogen[i - 1] ?? 1) * (1 + 1e-12));
  }
  const clean = bulkAtTRho(materialOf([{ fluid: "R134a", fraction: 1 }]), 298.15, 100);
  // Nitrogen boils out first; what is left after a fifth of the mass shows the pure fluid's pressure.
  expect(clean.kind === "bulk" && Math.abs((points[3]?.p ?? NaN) / clean.p - 1)).toBeLessThan(0.01);
});
