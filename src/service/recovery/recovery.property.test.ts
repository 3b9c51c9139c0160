import fc from "fast-check";
import { expect, test } from "vitest";
import type { FluidId } from "../../fluids/index.ts";
import { bulkAtTRho } from "../bulk/bulk.ts";
import { materialOf } from "../bulk/material.ts";
import { toMoles } from "../substances/composition.ts";
import { airCheck } from "./non-condensable.ts";
import { cylinderLimit } from "./cylinder-limit.ts";
import { boilingLiquid, dewVapour } from "./liquid-density.ts";
import { recoveredShare, residualVapour } from "./residual.ts";

const seed = 4711;
const span = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const pure = (fluid: FluidId) => materialOf([{ fluid, fraction: 1 }]);
const hydrocarbons = materialOf(
  toMoles([
    { fluid: "R290", fraction: 0.5 },
    { fluid: "R600", fraction: 0.4 },
    { fluid: "R600a", fraction: 0.1 },
  ]),
);
const materials = [
  ...(["R134a", "R1234yf", "R152a", "R290", "R600a", "R12", "R22"] as const).map(pure),
  hydrocarbons,
];
const anyMaterial = fc.constantFrom(...materials);

function limit(question: Parameters<typeof cylinderLimit>[0]) {
  const found = cylinderLimit(question);
  if (found.kind === "failed") throw new Error(JSON.stringify(found));
  return found;
}

test("the limit never rises with the filling temperature and rises with the water capacity", () => {
  fc.assert(
    fc.property(
      anyMaterial,
      span(1e-3, 0.05),
      span(1.001, 3),
      span(240, 345),
      span(0, 20),
      (material, V, more, T, warmer) => {
        const asked = { material, waterCapacity: V, tare: 3, fillTemperature: T };
        const found = limit(asked);
        const hotter = limit({ ...asked, fillTemperature: Math.min(345, T + warmer) });
        const larger = limit({ ...asked, waterCapacity: more * V });
        expect(hotter.maxMass).toBeLessThanOrEqual(found.maxMass * (1 + 1e-12));
        expect(larger.maxMass / found.maxMass).toBeCloseTo(more, 9);
        expect(larger.maxMass).toBeGreaterThan(found.maxMass);
        expect(found.maxGross - found.maxMass).toBeCloseTo(3, 12);
        for (const { mass } of found.rules) expect(found.maxMass).toBeLessThanOrEqual(mass);
      },
    ),
    { seed, numRuns: 60 },
  );
});

test("at its liquid-full temperature the liquid just fills the vessel, and that is above 55 °C", () => {
  fc.assert(
    fc.property(anyMaterial, span(1e-3, 0.05), (material, V) => {
      const found = limit({ material, waterCapacity: V, tare: 0 });
      const T = found.liquidFullTemperature ?? NaN;
      expect(T).toBeGreaterThan(328.15);
      const liquid = boilingLiquid(material, T);
      expect(liquid.kind === "boiling" && liquid.rho * V).toBeCloseTo(found.maxMass, 4);
    }),
    { seed, numRuns: 24 },
  );
});

test("a residue put back into its volume shows the pressure that it was read from", () => {
  fc.assert(
    fc.property(
      anyMaterial,
      span(275, 320),
      span(1e-3, 6e-3),
      span(0.001, 0.99),
      (material, T, V, share) => {
        const dew = dewVapour(material, T);
        if (dew.kind === "failed") throw new Error(JSON.stringify(dew));
        const p = share * dew.p;
        const sure = (value: number) => ({ value, u: 0 });
        const found = residualVapour({ material, volume: sure(V), T: sure(T), p: sure(p) });
        if (found.kind !== "vapour") throw new Error(JSON.stringify(found));
        const back = bulkAtTRho(material, T, found.mass / V);
        if (back.kind === "failed") throw new Error(JSON.stringify(back));
        expect(back.p / p).toBeCloseTo(1, 7);
        expect(found.mass).toBeLessThan(dew.rho * V);
      },
    ),
    { seed, numRuns: 120 },
  );
});

test("from the dew pressure on liquid is possible, and the least mass is that of the vapour", () => {
  const sure = (value: number) => ({ value, u: 0 });
  const asked = { material: pure("R134a"), volume: sure(3e-3), T: sure(298.15) };
  const found = residualVapour({ ...asked, p: sure(7e5) });
  expect(found.kind).toBe("liquid-possible");
  expect(found.kind === "liquid-possible" && 1e3 * found.leastMass).toBeCloseTo(97, 0);
  const deeper = residualVapour({ ...asked, p: { value: -500, u: 1000 } });
  expect(deeper).toMatchObject({ kind: "vapour", mass: 0 });
  // An ideal gas at 1000 Pa: V M p/(R T) = 0.1235 g.
  expect(deeper.kind === "vapour" && 1e3 * deeper.u).toBeCloseTo(0.1235, 4);
});

test("what came out and what remains are what was in", () => {
  fc.assert(
    fc.property(span(0.05, 3), span(0, 3), span(0, 0.05), (charged, out, u) => {
      const found = recoveredShare({ value: charged, u }, { value: out, u });
      expect(found.remaining + out).toBeCloseTo(charged, 12);
      if (found.verdict === "reached") expect(found.share).toBeGreaterThanOrEqual(0.95);
      if (found.verdict === "not-reached") expect(found.share).toBeLessThan(0.95);
    }),
    { seed, numRuns: 300 },
  );
});

test("more pressure never turns air into a pass, and a poor gauge is undecided at the limit", () => {
  const order = ["no-test", "within-glide", "pass", "undecided", "air"];
  fc.assert(
    fc.property(anyMaterial, span(285, 315), span(1e5, 3e6), span(0, 5e5), (material, T, p, d) => {
      const a = airCheck({ material, T, p });
      const b = airCheck({ material, T, p: p + d });
      if (a.kind === "failed" || b.kind === "failed") throw new Error("a limit exists here");
      expect(order.indexOf(b.verdict)).toBeGreaterThanOrEqual(order.indexOf(a.verdict));
      expect(b.excess - a.excess).toBeCloseTo(d, 3);
      const poor = airCheck({ material, T, p: a.limit, u: 1e4 });
      expect(poor.kind === "checked" && poor.verdict).toBe("undecided");
    }),
    { seed, numRuns: 100 },
  );
});
