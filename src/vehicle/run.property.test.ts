import { describe, expect, test } from "vitest";
import { requestOf, survey } from "../../test/vehicle/survey.ts";
import { celsius, conditions, psig, runs, scenario } from "../../test/vehicle/scenario.ts";
import { seededCases } from "../../test/vehicle/random-cases.ts";
import { createRunWork, presetNames, type Running, runVehicle, type VehicleCase } from "./index.ts";

test("300 random cases: an answer or a named reason, mass, energy and charge kept to 1e-6", () => {
  const { counts, unresolved, broken, worst } = survey(3, 300);
  expect(broken).toEqual([]);
  expect(unresolved, JSON.stringify(counts)).toBeLessThanOrEqual(1);
  expect(worst.energy).toBeLessThan(1e-6);
  expect(worst.charge).toBeLessThan(1e-6);
});

test("a warm start changes no answer", () => {
  const work = createRunWork();
  let compared = 0;
  for (const each of seededCases(8, 150)) {
    const request = requestOf(each);
    const cold = runVehicle(request, work);
    if (cold.kind !== "running") continue;
    const other = { ...request.conditions, ambient: request.conditions.ambient + 1 };
    const away = runVehicle({ ...request, conditions: other }, work);
    if (away.kind !== "running") continue;
    const back = runVehicle(request, work, away.start);
    if (back.kind !== "running") throw new Error(back.kind);
    compared++;
    expect(Math.abs(back.high / cold.high - 1)).toBeLessThan(1e-5);
    expect(Math.abs(back.vent - cold.vent)).toBeLessThan(1e-3);
  }
  expect(compared).toBeGreaterThan(80);
});

test("a warm start takes no part of its neighbour's condenser along", () => {
  const work = createRunWork();
  const at = conditions({ celsius: 32, humidity: 0.45, rpm: 900, share: 0.45 });
  const request = scenario({
    preset: "midsize-expansion",
    fluid: "R134a",
    charge: 1,
    conditions: at,
  });
  const start = runs(request).start;
  const { vehicle } = request;
  const values = { ...vehicle.values, subcoolArea: vehicle.values.subcoolArea / 2 };
  const other = { ...request, vehicle: { ...vehicle, values } };
  const warm = runVehicle(other, work, start);
  const cold = runs(other);
  expect(warm.kind === "running" && warm.high).toBeCloseTo(cold.high, 0);
  expect(Math.abs(cold.high - runs(request).high)).toBeGreaterThan(1e3);
});

/** A series of runs along one quantity, cold each time. */
function series(count: number, at: (share: number) => VehicleCase): readonly Running[] {
  return Array.from({ length: count }, (_, k) => runs(at(k / (count - 1))));
}

/** Largest second difference of a series over its span. */
function roughest(values: readonly number[]): number {
  const span = Math.max(...values) - Math.min(...values);
  let worst = 0;
  for (let k = 2; k < values.length; k++) {
    const [a, b, c] = [values[k - 2] ?? 0, values[k - 1] ?? 0, values[k] ?? 0];
    worst = Math.max(worst, Math.abs(c - 2 * b + a));
  }
  return worst / Math.max(span, 1e-9);
}

/** Smoother than this nobody sees; a bend's second difference halves with the step, a jump's stays. */
const smooth = 0.02;
const halving = 0.9;

const mild = conditions({ celsius: 30, humidity: 0.45, rpm: 900, share: 0.5 });

describe.each(presetNames)("%s", (preset) => {
  const base = { preset, fluid: "R134a", charge: 1 } as const;

  test("head and vent rise with ambient", () => {
    const along = series(41, (share) =>
      scenario({ ...base, conditions: { ...mild, ambient: 293.15 + 22 * share } }),
    );
    for (let k = 1; k < along.length; k++) {
      expect(along[k]?.high).toBeGreaterThan(along[k - 1]?.high ?? 0);
      expect(along[k]?.vent).toBeGreaterThan(along[k - 1]?.vent ?? 0);
    }
  });

  test("no jumps along charge, ambient, engine speed and restriction", () => {
    const scans: Readonly<Record<string, (share: number) => VehicleCase>> = {
      charge: (s) => scenario({ ...base, charge: 0.3 + 1.2 * s, conditions: mild }),
      ambient: (s) => scenario({ ...base, conditions: { ...mild, ambient: 288.15 + 25 * s } }),
      engine: (s) => scenario({ ...base, conditions: { ...mild, engineSpeed: 11 + 30 * s } }),
      restriction: (s) =>
        scenario({ ...base, conditions: mild, faults: { restriction: 0.4 + 0.6 * s } }),
    };
    for (const [name, at] of Object.entries(scans)) {
      const [coarse, fine] = [series(201, at), series(401, at)];
      for (const quantity of ["low", "high", "vent", "capacity", "power"] as const) {
        const [rough, finer] = [coarse, fine].map((runs) =>
          roughest(runs.map((run) => run[quantity])),
        ) as [number, number];
        expect(finer, `${name} ${quantity}`).toBeLessThan(Math.max(smooth, halving * rough));
      }
    }
  });

  test("circulating charge follows the outlet of the condenser", () => {
    const along = series(30, (s) =>
      scenario({ ...base, charge: 0.3 + 0.35 * s, conditions: mild }),
    ).filter(({ regime }) => regime === "starved");
    for (let k = 1; k < along.length; k++) {
      expect(along[k]?.charge.condenser).toBeGreaterThan(along[k - 1]?.charge.condenser ?? 1);
      expect(along[k]?.vent).toBeLessThan(along[k - 1]?.vent ?? 0);
    }
  });

  test("an empty system does not run", () => {
    const run = runVehicle(scenario({ ...base, charge: 0.005, conditions: mild }));
    expect(run).toMatchObject({ kind: "stopped", reason: "resting-pressure-too-low" });
  });

  test("a blend that is nearly pure runs like the pure fluid", () => {
    const pure = scenario({ preset, fluid: "R290", charge: 0.4, conditions: mild });
    const nearly = {
      ids: ["R290", "R600a"],
      fractions: [0.99999, 0.00001],
    } as const;
    const a = runs(pure);
    const b = runs({ ...pure, fill: { ...pure.fill, composition: nearly } });
    expect(Math.abs(psig(a.high) - psig(b.high))).toBeLessThan(0.15);
    expect(Math.abs(celsius(a.vent) - celsius(b.vent))).toBeLessThan(0.05);
  });
});
