import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { evaluateAt, intervalOf } from "../numerics/index.ts";
import { parseFluidFile } from "./fluid-file.ts";
import { fileStem } from "./fluid-id.ts";
import {
  A00,
  A01,
  createResidualWork,
  evaluateInDelta,
  fluid,
  fluidIds,
  saturationAtP,
  saturationAtT,
  setTau,
  type FluidId,
  type Saturated,
  type Saturation,
} from "./index.ts";
import { buildSaturation } from "./saturation-build.ts";
import { parseSaturationFile, saturationFileText } from "./saturation-file.ts";

const runs = { seed: 11, numRuns: 100 };

function saturatedOf(outcome: Saturation): Saturated {
  if (outcome.kind !== "saturated") expect.fail(JSON.stringify(outcome));
  return outcome;
}

function readJson(folder: "fluids" | "saturation", id: FluidId): unknown {
  return JSON.parse(readFileSync(`data/${folder}/${fileStem(id)}.json`, "utf8"));
}

describe("both phases of the expansions have equal pressure and equal fugacity", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const pure = fluid(id);
      const { residual, rhor, R, Tr, critical } = pure;
      const work = createResidualWork(residual);
      fc.assert(
        fc.property(
          fc.double({ min: pure.info.Tmin, max: 0.999 * critical.T, noNaN: true }),
          (T) => {
            const { p, rhoL, rhoV } = saturatedOf(saturationAtT(pure, T));
            setTau(residual, Tr / T, work);
            const phase = (rho: number): { p: number; potential: number } => {
              const delta = rho / rhor;
              evaluateInDelta(residual, delta, work);
              const [a, b] = [work.A[A00] ?? Number.NaN, work.A[A01] ?? Number.NaN];
              return { p: rho * R * T * (1 + b), potential: a + b + Math.log(delta) };
            };
            const [liquid, vapour] = [phase(rhoL), phase(rhoV)];
            // R22 rounds its pressure in cold liquid by 4e-13·ρRT: its terms cancel.
            const room = id === "R22" ? 3e-10 : 1e-11;
            expect(Math.abs(vapour.p / p - 1)).toBeLessThan(room);
            expect(Math.abs(liquid.p - p) / (rhoL * R * T)).toBeLessThan(room);
            expect(Math.abs(liquid.potential - vapour.potential)).toBeLessThan(room);
          },
        ),
        runs,
      );
    });
  }
});

describe("saturation from p inverts saturation from T", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const pure = fluid(id);
      fc.assert(
        fc.property(
          fc.double({ min: pure.info.Tmin, max: 0.999 * pure.critical.T, noNaN: true }),
          (T) => {
            const forward = saturatedOf(saturationAtT(pure, T));
            const back = saturatedOf(saturationAtP(pure, forward.p));
            expect(Math.abs(back.T / T - 1)).toBeLessThan(2e-12);
            expect(Math.abs(back.rhoV / forward.rhoV - 1)).toBeLessThan(1e-9);
          },
        ),
        runs,
      );
    });
  }
});

describe("the committed coefficients are what the script builds", () => {
  for (const id of ["R134a", "R290", "R744"] as const) {
    test(`${id}, coefficient by coefficient`, () => {
      const built = buildSaturation(parseFluidFile(readJson("fluids", id)));
      const text = saturationFileText(id, built, "test");
      const rebuilt = parseSaturationFile(JSON.parse(text));
      const committed = parseSaturationFile(readJson("saturation", id));
      expect(rebuilt.critical.T).toBeCloseTo(committed.critical.T, 9);
      expect(rebuilt.states.breaks).toEqual(committed.states.breaks);
      for (const [k, table] of committed.states.tables.entries()) {
        const scale = Math.max(...table.map(Math.abs));
        for (const [j, value] of table.entries()) {
          // Nearest to the critical point the equation's own rounding shows, above it not.
          const room = committed.states.breaks[Math.floor(j / 13)] === 0 ? 1e-6 : 1e-9;
          expect(Math.abs((rebuilt.states.tables[k]?.[j] ?? NaN) - value)).toBeLessThan(
            room * scale,
          );
        }
      }
    });
  }

  test("all fluids, by the values of the expansions", () => {
    for (const id of fluidIds) {
      const { states, temperature } = buildSaturation(parseFluidFile(readJson("fluids", id)));
      const committed = parseSaturationFile(readJson("saturation", id));
      const far = committed.states.breaks.at(-1) ?? Number.NaN;
      for (let k = 0; k <= 200; k++) {
        const x = 0.0317 + ((far - 0.0317) * k) / 200;
        const values = [states, committed.states].map((expansion) =>
          expansion.tables.map((table) =>
            evaluateAt(expansion, table, intervalOf(expansion.breaks, x), x),
          ),
        );
        for (const [j, value] of (values[0] ?? []).entries()) {
          const room = 1e-10 * Math.max(1, Math.abs(value));
          expect(Math.abs(value - (values[1]?.[j] ?? Number.NaN))).toBeLessThan(room);
        }
        const y = values[0]?.[0] ?? Number.NaN;
        const temperatures = [temperature, committed.temperature].map((expansion) =>
          evaluateAt(
            expansion,
            expansion.tables[0] ?? new Float64Array(),
            intervalOf(expansion.breaks, y),
            y,
          ),
        );
        expect(Math.abs((temperatures[0] ?? 0) / (temperatures[1] ?? 1) - 1)).toBeLessThan(1e-11);
      }
    }
  });
});
