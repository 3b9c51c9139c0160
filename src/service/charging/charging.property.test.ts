import fc from "fast-check";
import { expect, test } from "vitest";
import type { FluidId } from "../../fluids/index.ts";
import { bulkAtTRho } from "../bulk/bulk.ts";
import { materialOf } from "../bulk/material.ts";
import { toMoles } from "../substances/composition.ts";
import { canPlan } from "./can-plan.ts";
import { equalLevel, equalLiquidVolume } from "./liquid-equivalent.ts";
import { massTolerance, scaleSettles } from "./mass-tolerance.ts";
import { phaseAdvice } from "./phase-advice.ts";

const seed = 4712;
const span = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const pure = (fluid: FluidId) => materialOf([{ fluid, fraction: 1 }]);
const blend = materialOf(
  toMoles([
    { fluid: "R290", fraction: 0.5 },
    { fluid: "R600", fraction: 0.4 },
    { fluid: "R600a", fraction: 0.1 },
  ]),
);
const anyMaterial = fc.constantFrom(
  ...(["R134a", "R1234yf", "R152a", "R290", "R600a"] as const).map(pure),
  blend,
);

/** A failure of the equations is a failure of the test. */
function sound<A extends { readonly kind: string }>(
  found: A | undefined,
): Exclude<A, { kind: "failed" }> {
  if (found?.kind === undefined || found.kind === "failed") throw new Error(JSON.stringify(found));
  return found as Exclude<A, { kind: "failed" }>;
}

test("equal volume there and back is the same mass, and the same fluid keeps its charge", () => {
  fc.assert(
    fc.property(anyMaterial, anyMaterial, span(0.1, 2), span(280, 330), (a, b, charge, T) => {
      const there = sound(equalLiquidVolume({ label: a, charge, product: b, T }));
      const back = sound(equalLiquidVolume({ label: b, charge: there.mass, product: a, T }));
      expect(back.mass / charge).toBeCloseTo(1, 10);
      expect(sound(equalLiquidVolume({ label: a, charge, product: a, T })).mass).toBe(charge);
    }),
    { seed, numRuns: 60 },
  );
});

test("an equal level is the label charge's level, to what the product's own phases give", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(pure("R1234yf"), pure("R152a"), pure("R290"), pure("R134a")),
      span(0.05, 1.2),
      span(1.5e-3, 5e-3),
      span(285, 318),
      (product, charge, volume, T) => {
        fc.pre(charge / volume < 950);
        const label = pure("R134a");
        const found = sound(equalLevel({ label, charge, product, T }, volume));
        const inside = sound(bulkAtTRho(product, T, found.mass / volume));
        const level = inside.phases.find(({ kind }) => kind === "liquid")?.volumeShare ?? 0;
        expect(level).toBeCloseTo(found.liquidShare, 6);
        const same = sound(equalLevel({ label, charge, product: label, T }, volume));
        expect(same.mass / charge).toBeCloseTo(1, 8);
      },
    ),
    { seed, numRuns: 120 },
  );
});

test("cans: what is delivered, left in cans and hose adds up, and one can fewer would not do", () => {
  fc.assert(
    fc.property(
      anyMaterial,
      span(0.05, 2),
      span(0.1, 0.5),
      span(285, 312),
      span(1e5, 4e5),
      (material, target, net, T, p) => {
        const hose = { bore: 4.8e-3, length: 1.8 };
        const plan = sound(canPlan({ material, target, net, T, p, hose }));
        expect(plan.delivered + plan.residue).toBeCloseTo(net, 12);
        const drawn = (plan.cans - 1) * plan.delivered + plan.lastDraw;
        expect(drawn).toBeCloseTo(target + plan.hose.vapour, 9);
        const left = plan.cans * plan.residue + plan.spare;
        expect(plan.cans * net).toBeCloseTo(drawn + left, 9);
        expect(plan.spare).toBeGreaterThanOrEqual(-1e-9);
        expect(plan.lastDraw).toBeGreaterThan(0);
      },
    ),
    { seed, numRuns: 150 },
  );
});

test("a can that gives next to nothing has no plan", () => {
  const plan = canPlan({
    material: pure("R134a"),
    ...{ target: 1, net: 0.01, volume: 0.5e-3, T: 298.15, p: 6e5 },
    hose: { bore: 4.8e-3, length: 1.8 },
  });
  expect(plan).toBeUndefined();
});

test("tolerance grows to 15 g and stays there; a scale is fine within a third of it", () => {
  fc.assert(
    fc.property(span(0.01, 3), (target) => {
      const { tolerance, scaleLimit, from, to } = massTolerance(target);
      expect(tolerance).toBeLessThanOrEqual(0.015);
      expect(to - from).toBeCloseTo(2 * tolerance, 12);
      expect(scaleSettles(0.99 * scaleLimit, target).fine).toBe(true);
      expect(scaleSettles(1.01 * scaleLimit, target).fine).toBe(false);
    }),
    { seed },
  );
});

test("a pure fluid in either phase, a zeotrope as liquid, with its light part ahead in the vapour", () => {
  expect(sound(phaseAdvice(pure("R290"), 298.15)).take).toBe("either");
  const advice = sound(phaseAdvice(blend, 298.15));
  expect(advice.take).toBe("liquid");
  expect(advice.glide).toBeGreaterThan(5);
  const share = (parts: typeof advice.asCharged | undefined) =>
    parts?.find(({ fluid }) => fluid === "R290")?.fraction ?? NaN;
  expect(share(advice.asCharged)).toBeCloseTo(0.5, 9);
  expect(share(advice.firstVapour)).toBeGreaterThan(0.65);
});
