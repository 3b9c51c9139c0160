// The directions that the trade's diagnostic pattern table gives for each fault (data/facts/fault-signs.json), against
// the model of a fixed compressor held on, as the table's orientation has it. A direction that the model does not
// show carries its reason and is held to be missed: when it is met one day, the reason goes.
import { describe, expect, test } from "vitest";
import { branchesOf, type FaultName, faultNames } from "../../src/evidence/faults/hypotheses.ts";
import { predict } from "../../src/evidence/faults/predict.ts";
import { outer, placeOf } from "../../src/evidence/faults/quantities.ts";
import { faultFacts } from "../../src/evidence/index.ts";
import {
  createRunWork,
  type PresetName,
  saturationOf,
  type VehicleCase,
} from "../../src/vehicle/index.ts";
import { conditions, scenario } from "../vehicle/scenario.ts";

/** Smallest change that counts as up or down: Pa, K. */
const least = { low: 3e3, high: 10e3, vent: 0.3, superheat: 0.5, subcooling: 0.5, static: 3e3 };

/** A severity that nobody overlooks. */
const severities: Readonly<Partial<Record<FaultName, number>>> = {
  undercharge: 0.6,
  overcharge: 0.6,
  air: 30e3,
  "condenser-airflow": 0.45,
  restriction: 0.7,
  "weak-compressor": 0.4,
  "stuck-open": 0.6,
  "heat-leak": 6,
  "evaporator-airflow": 0.45,
};
const accumulator = "a modelled accumulator keeps the evaporator's outlet wet: there is no superheat to fall";
const drain = "what is held back starves the rest in the model, and the condenser drains instead of filling";
const valve = "the modelled valve follows its bulb and keeps its superheat";
const missed: Readonly<Record<string, string>> = {
  "large-orifice overcharge superheat down": accumulator,
  "large-orifice stuck-open superheat down": accumulator,
  "large-orifice evaporator-airflow superheat down": accumulator,
  "large-orifice air subcooling up":
    "the orifice lets the air's extra pressure push more through, which takes the subcooling back",
  "large-orifice restriction subcooling up": drain,
  "midsize-expansion restriction subcooling up":
    "the receiver holds the condenser's outlet at its own subcooler; only a full receiver raises it",
  "midsize-expansion overcharge vent up":
    "a full receiver raises the head only: the valve feeds the coil as before",
  "midsize-expansion evaporator-airflow superheat down": valve,
};

function changes(preset: PresetName, fault: FaultName) {
  const at = conditions({ celsius: 32, humidity: 0.45, rpm: 900, share: 0.45 });
  const healthy: VehicleCase = {
    ...scenario({ preset, fluid: "R134a", charge: 1, conditions: at, heldOn: true }),
  };
  const label = saturationOf(healthy.fill.composition);
  if (label.kind !== "saturation") throw new Error(label.reason);
  const reader = { label, metal: at.ambient, work: createRunWork() };
  const branch = branchesOf(healthy).find((one) => one.fault === fault);
  const system = { request: healthy, ventOffset: 0 };
  const faulty = branch && predict(branch.apply(severities[fault] ?? 0, system), reader);
  const sound = predict(system, reader);
  if (!faulty || !sound) throw new Error("does not run");
  return (quantity: keyof typeof least): number => {
    const of = ({ values }: typeof sound): number =>
      outer(quantity, values[placeOf(quantity)] ?? 0);
    return of(faulty) - of(sound);
  };
}

const directionOf = (change: number, enough: number): "up" | "down" | "same" =>
  Math.abs(change) < enough ? "same" : change > 0 ? "up" : "down";

for (const preset of ["large-orifice", "midsize-expansion"] as const) {
  describe(`fault pattern table, ${preset}`, () => {
    for (const fault of faultNames.filter((name) => severities[name] !== undefined)) {
      for (const [quantity, direction] of Object.entries(faultFacts(fault).signs)) {
        const name = `${preset} ${fault} ${quantity} ${direction}`;
        test(name, () => {
          const key = quantity as keyof typeof least;
          const change = changes(preset, fault)(key);
          const found = directionOf(change, least[key]);
          const why = missed[name];
          if (why === undefined) expect(found, `changes by ${change.toPrecision(3)}`).toBe(direction);
          else expect(found, `listed as missed: ${why}`).not.toBe(direction);
        });
      }
    }
  });
}
