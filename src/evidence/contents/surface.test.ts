import { expect, test } from "vitest";
import { fluidInfo } from "../../fluids/index.ts";
import { createRandom } from "../../numerics/index.ts";
import { bulkAtTRho, materialOf, toMoles } from "../../service/index.ts";
import { type Family, families } from "./families.ts";
import { type AtRest, createBoilingWork, settle } from "./settle.ts";
import { boilingAt } from "./surface.ts";

/** Largest relative error of a family's pressures and liquid densities against the exact flash, 0 to 45 °C. */
function worstOf(family: Family, runs: number): { p: number; rho: number } {
  const random = createRandom(3);
  const work = createBoilingWork();
  const at: AtRest = { p: 0, liquidShare: 0, rhoL: 0 };
  const worst = { p: 0, rho: 0 };
  for (let k = 0; k < runs; k++) {
    const u = Float64Array.from({ length: 8 }, () => random());
    const share = new Float64Array(8);
    family.cells[k % family.cells.length]?.place(u, share);
    const parts = family.fluids
      .map((fluid, i) => ({ fluid, fraction: share[i] ?? 0 }))
      .filter(({ fraction }) => fraction > 0);
    const moles = toMoles(parts);
    const z = new Float64Array(8);
    for (const { fluid, fraction } of moles) z[family.fluids.indexOf(fluid)] = fraction;
    const M = moles.reduce((sum, { fluid, fraction }) => sum + fraction * fluidInfo(fluid).M, 0);
    const T = 273 + 45 * random();
    const boiling = boilingAt(family, T);
    if (!boiling) throw new Error("no boiling line");
    settle(boiling, z, { kind: "share", share: 1 }, work, at);
    const rho = M * at.rhoL * (0.2 + 0.6 * random());
    settle(boiling, z, { kind: "density", rho: rho / M }, work, at);
    const exact = bulkAtTRho(materialOf(moles), T, rho);
    if (exact.kind !== "bulk") continue;
    worst.p = Math.max(worst.p, Math.abs(at.p / exact.p - 1));
    const liquid = exact.phases.find(({ kind }) => kind === "liquid");
    if (liquid) worst.rho = Math.max(worst.rho, Math.abs((at.rhoL * M) / liquid.rho - 1));
  }
  return worst;
}

const lowCritical = ["R170", "R744", "R1132a"];
const pure = families.filter(({ kind, id }) => kind === "pure" && !lowCritical.includes(id));
const blends = families.filter(({ kind, id }) => kind === "blend" && id !== "R445A");
const mixed = families.filter(({ kind }) =>
  ["hydrocarbons", "contaminated", "counterfeit"].includes(kind),
);

// The exact flash is itself checked against another library's tables in test/reference.
test("pure fluids keep to their equations", () => {
  for (const family of pure)
    expect([family.id, worstOf(family, 4).p < 0.002]).toEqual([family.id, true]);
});

test("named blends keep to the exact flash within 2.5 %, almost all within 1 %", () => {
  const errors = blends.map((family) => ({ id: family.id, ...worstOf(family, 10) }));
  for (const { id, p, rho } of errors)
    expect([id, p < 0.025, rho < 0.025]).toEqual([id, true, true]);
  expect(errors.filter(({ p }) => p > 0.01).length).toBeLessThanOrEqual(2);
});

/** Where the limit is wider than 1 %: five hydrocarbons of very unlike volatility, and air. */
const AIR = 0.025;
const wider: Readonly<Record<string, number>> = { hydrocarbons: 0.015 };

test("mixtures of any composition keep to the exact flash", () => {
  for (const family of mixed) {
    const { p } = worstOf(family, 40);
    const limit = family.fluids.includes("R728") ? AIR : (wider[family.id] ?? 0.01);
    expect([family.id, p < limit]).toEqual([family.id, true]);
  }
});

test("a vessel with too little for a drop holds vapour alone", () => {
  const family = families.find(({ id }) => id === "R134a");
  const boiling = family && boilingAt(family, 298.15);
  if (!boiling) throw new Error("no R134a");
  const at: AtRest = { p: 0, liquidShare: 0, rhoL: 0 };
  settle(boiling, Float64Array.of(1), { kind: "density", rho: 100 }, createBoilingWork(), at);
  expect(at.liquidShare).toBe(0);
  const exact = bulkAtTRho(materialOf([{ fluid: "R134a", fraction: 1 }]), 298.15, 100 * 0.102032);
  expect(exact.kind === "bulk" && Math.abs(at.p / exact.p - 1)).toBeLessThan(0.02);
});

test("prior probabilities make a whole, and every family can be placed", () => {
  expect(families.reduce((sum, { prior }) => sum + prior, 0)).toBeCloseTo(1, 12);
  for (const { cells, fluids } of families.filter(({ fluids: f }) => f.length > 0)) {
    for (const cell of cells) {
      const share = new Float64Array(8);
      cell.place(
        Float64Array.from({ length: 8 }, () => 0.37),
        share,
      );
      expect(share.slice(0, fluids.length).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    }
  }
});
