// A prototype of the same formulation, written apart: its table, within the tolerances stated for another
// implementation (low ± 1 psi, high ± 4 psi, vent ± 0.4 K, capacity and COP ± 3 %). No measurement.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { PresetName } from "../../src/vehicle/index.ts";
import {
  celsius,
  type FluidName,
  psig,
  runs,
  scenario,
  tableConditions,
} from "../vehicle/scenario.ts";

const text = readFileSync(new URL("vehicle-sanity.csv", import.meta.url), "utf8");
const [, ...rows] = text
  .trim()
  .split("\n")
  .filter((line) => !line.startsWith("#"));

describe("sanity table", () => {
  for (const row of rows) {
    const [condition, fault, preset, fluid, charge, ...figures] = row.split(",") as [
      keyof typeof tableConditions,
      string,
      PresetName,
      FluidName,
      string,
      ...string[],
    ];
    const [low, high, highOn, vent, Q, COP, discharge, superheat, subcooling, duty, flow, reserve] =
      figures.map(Number) as [
        number, number, number, number, number, number, number, number, number, number, number, number,
      ];
    test(`${condition} ${preset} ${fluid} ×${charge} ${fault}`, () => {
      const run = runs(
        scenario({
          preset,
          fluid,
          charge: Number(charge),
          conditions: tableConditions[condition],
          faults:
            fault === "condenser air 0.4"
              ? { blockedCondenser: 0.4 }
              : fault === "orifice 0.3 held on"
                ? { restriction: 0.3 }
                : {},
          heldOn: fault === "orifice 0.3 held on",
        }),
      );
      const within = (value: number, expected: number, tolerance: number, what: string): void => {
        expect(Math.abs(value - expected), `${what} ${value} for ${expected}`).toBeLessThanOrEqual(
          tolerance,
        );
      };
      within(psig(run.low), low, 1, "low, psig");
      within(psig(run.high), high, 4, "high, psig");
      within(psig(run.highOn ?? run.high), highOn, 4, "high while engaged, psig");
      within(celsius(run.vent), vent, 0.4, "vent, °C");
      within(run.capacity / 1000, Q, 0.03 * Q, "capacity, kW");
      within(run.cop, COP, 0.03 * COP, "COP");
      within(celsius(run.discharge), discharge, 2, "discharge, °C");
      within(run.superheat, superheat, 1.5, "superheat, K");
      within(run.subcooling, subcooling, 0.5, "subcooling, K");
      within(run.duty, duty, 0.02, "duty");
      within(1000 * run.massFlow, flow, 0.02 * flow, "flow, g/s");
      within(1000 * run.charge.bufferLiquid, reserve, 10, "liquid in the buffer, g");
    });
  }
});
