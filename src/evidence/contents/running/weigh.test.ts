import { expect, test } from "vitest";
import {
  type Conditions,
  presetVehicle,
  pureComposition,
  runVehicle,
} from "../../../vehicle/index.ts";
import type { FluidId } from "../../../fluids/index.ts";
import type { Evidence, RunningEvidence } from "../evidence.ts";
import { families } from "../families.ts";
import { identify } from "../identify.ts";
import { posteriorOf } from "../posterior.ts";
import { weighedRun, withRun } from "./weigh.ts";

const vehicle = presetVehicle("large-orifice");
const conditions: Conditions = {
  ambient: 303.15,
  humidity: 0.5,
  pAir: 101_325,
  speed: 0,
  engineSpeed: 12.5,
  blower: 1,
  recirculation: 1,
  returnAir: { kind: "measured", T: 299.15, humidity: 0.45 },
  occupants: 1,
};

/** What the model itself reads on a pure fluid, by liquid volume as much as the label. */
function ranOn(fluid: FluidId, ratio: number): RunningEvidence {
  const charge = ratio * vehicle.values.labelCharge;
  const fill = { composition: pureComposition(fluid), charge, air: 0 };
  const run = runVehicle({ vehicle, conditions, fill });
  if (run.kind !== "running") throw new Error(run.kind);
  const readings = [
    { quantity: "low" as const, value: run.low },
    { quantity: "high" as const, value: run.highOn ?? run.high },
    { quantity: "vent" as const, value: run.vent },
  ];
  const runs = [{ conditions, readings }];
  return { kind: "running", vehicle, label: "R134a", charge, uCharge: 0.01, runs, baseline: [] };
}

const OPTIONS = { seed: 1, points: 100, passes: 1 } as const;
/** Only fluids that cost little to run, and one that has no run. */
const some = ["R134a", "R22", "R152a", "R290", "none"];
const prior = Object.fromEntries(families.map(({ id }) => [id, some.includes(id) ? 1 : 0]));
const rest = posteriorOf([], { ...OPTIONS, prior });
const chances = (posterior: typeof rest) =>
  Object.fromEntries(posterior.families.map(({ family, probability }) => [family.id, probability]));

test("a run speaks for what the model reads it on, by ten to one against the others at most", () => {
  const before = chances(rest);
  const after = chances(withRun(rest, weighedRun(ranOn("R22", 0.97), rest)));
  expect(after["R22"]).toBeGreaterThan(2 * (before["R22"] ?? 1));
  for (const id of Object.keys(before)) {
    expect(after[id]).toBeGreaterThan(0.0999 * (before[id] ?? 0));
  }
});

test("what the model cannot run keeps its probability, whatever was read", () => {
  const before = chances(rest);
  for (const evidence of [ranOn("R134a", 1), ranOn("R152a", 0.7)]) {
    const after = chances(withRun(rest, weighedRun(evidence, rest)));
    expect(after["none"]).toBeCloseTo(before["none"] ?? 0, 9);
  }
  // Nothing runs on a spoonful: nothing is said.
  const spoonful = { ...ranOn("R134a", 1), charge: 0.01, uCharge: 0.001 };
  expect(chances(withRun(rest, weighedRun(spoonful, rest)))).toEqual(before);
});

test("a forecast gives no name and clears no hazard", () => {
  const label: Evidence = { kind: "label", declares: "R134a", trust: 0.99 };
  const found = identify([label, ranOn("R134a", 1)], { prior });
  expect(found.families[0]?.id).toBe("R134a");
  expect(found.families[0]?.probability).toBeGreaterThan(0.95);
  expect(found.verdict).toBe("undecided");
  expect(found.runs?.without.family).toBe("R134a");
  const burns = (evidence: readonly Evidence[]) =>
    identify(evidence, { prior }).hazards.find(({ kind }) => kind === "burns")?.probability ?? 0;
  expect(burns([ranOn("R134a", 1)])).toBeGreaterThanOrEqual(burns([]) - 1e-9);
});
