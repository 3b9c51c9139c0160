import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { diagnose, type Diagnosis, diagnoseWith, modelOf } from "./diagnose.ts";
import { branchesOf, type FaultName } from "./hypotheses.ts";
import { predict } from "./predict.ts";
import { type FaultQuantity, type FaultReading, outer, placeOf } from "./quantities.ts";
import {
  createRunWork,
  presetVehicle,
  pureComposition,
  runVehicle,
  saturationOf,
  type VehicleCase,
} from "../../vehicle/index.ts";

const PSI = 6894.757293168;
const healthy = (preset: "large-orifice" | "midsize-expansion"): VehicleCase => {
  const vehicle = presetVehicle(preset);
  return {
    vehicle,
    conditions: {
      ambient: 305.15,
      humidity: 0.45,
      pAir: 101325,
      speed: 0,
      engineSpeed: 12.5,
      blower: 1,
      recirculation: 1,
      returnAir: { kind: "pull-down", share: 0.45 },
      occupants: 1,
    },
    fill: { composition: pureComposition("R134a"), charge: vehicle.values.labelCharge, air: 0 },
  };
};

/** Readings without noise of a preset with a fault. */
function shown(
  sound: VehicleCase,
  fault: FaultName,
  severity: number,
  quantities: readonly FaultQuantity[],
): readonly FaultReading[] {
  const label = saturationOf(sound.fill.composition);
  if (label.kind !== "saturation") throw new Error(label.reason);
  const branch = branchesOf(sound).find((one) => one.fault === fault);
  const reader = { label, metal: sound.conditions.ambient, work: createRunWork() };
  const run = branch && predict(branch.apply(severity, { request: sound, ventOffset: 0 }), reader);
  if (!run) throw new Error(`${fault} does not run`);
  return quantities.map((quantity) => ({
    quantity,
    value: outer(quantity, run.values[placeOf(quantity)] ?? 0),
    // A digital gauge and a good thermometer: at rest there is time for them.
    ...(quantity === "static" && { u: 4e3, uMetal: 0.3 }),
  }));
}

const asked = (healthy: VehicleCase, readings: readonly FaultReading[]) => ({
  healthy,
  runs: [{ conditions: healthy.conditions, readings }],
});

function diagnosed(sound: VehicleCase, readings: readonly FaultReading[]): Diagnosis {
  const found = diagnose(asked(sound, readings));
  if (found.kind !== "diagnosis") throw new Error(found.reason);
  return found;
}

const gauges: readonly FaultQuantity[] = ["low", "high", "vent"];

describe("faults of a preset, read without noise", () => {
  const cases: readonly (readonly [FaultName, number, readonly FaultQuantity[]])[] = [
    ["air", 55e3, [...gauges, "static", "liquidLine"]],
    ["weak-compressor", 0.6, [...gauges, "duty", "superheat"]],
    ["undercharge", 0.6, [...gauges, "superheat", "subcooling", "static"]],
    ["heat-leak", 10, [...gauges, "superheat", "subcooling"]],
  ];
  test.each(cases)("%s %d leads, its severity lies in its interval", (fault, severity, read) => {
    const sound = healthy("large-orifice");
    const found = diagnosed(sound, shown(sound, fault, severity, read));
    expect(found.faults[0]?.name).toBe(fault);
    const range = found.faults[0]?.severity;
    expect(range?.from).toBeLessThanOrEqual(severity);
    expect(range?.to).toBeGreaterThanOrEqual(severity);
  });

  test.each(["large-orifice", "midsize-expansion"] as const)(
    "a sound %s is called so",
    (preset) => {
      const sound = healthy(preset);
      const found = diagnosed(sound, shown(sound, "none", 0, [...gauges, "superheat", "static"]));
      expect(found.named).toBe("healthy");
    },
  );
});

test("one sign is no fault: heat in the duct moves the vent alone and is only suspected", () => {
  const sound = healthy("large-orifice");
  const found = diagnosed(sound, shown(sound, "heat-leak", 12, [...gauges, "superheat"]));
  expect(found).toMatchObject({ named: "undecided", suspected: "heat-leak" });
  expect(found.faults[0]?.independentSigns).toBe(1);
});

test("static pressure above saturation is a sign of its own: air is named with the head", () => {
  const sound = healthy("midsize-expansion");
  const found = diagnosed(sound, shown(sound, "air", 70e3, [...gauges, "static", "liquidLine"]));
  expect(found.faults[0]).toMatchObject({ name: "air" });
  const signs = found.faults[0]?.signs.filter(({ says }) => says === "for") ?? [];
  expect(signs.map(({ quantity }) => quantity)).toContain("static");
});

test("one reading decides nothing, whatever it shows", () => {
  const found = diagnosed(healthy("large-orifice"), [{ quantity: "high", value: 2.6e6 }]);
  expect(found.named).toBe("undecided");
  expect(found.notes).toContain("few-readings");
});

test("a held low side is said to hide", () => {
  const sound = healthy("midsize-expansion");
  const cool = { ...sound, conditions: { ...sound.conditions, ambient: 296.15 } };
  const run = runVehicle(cool);
  expect(run.kind === "running" && run.duty < 1).toBe(true);
  expect(diagnosed(cool, shown(cool, "none", 0, gauges)).notes).toContain("low-side-held");
});

test("what is read next is not read already, and never opens the system or defeats a switch", () => {
  const sound = healthy("large-orifice");
  const found = diagnosed(sound, shown(sound, "undercharge", 0.4, gauges));
  expect(found.next.length).toBeGreaterThan(0);
  const here = found.next.filter(({ where }) => where === "here" || where === "at-rest");
  for (const { quantity } of here) expect(gauges).not.toContain(quantity);
  for (const { information } of found.next) expect(information).toBeLessThanOrEqual(1);
});

test("a baseline of the sound vehicle narrows its band", () => {
  const sound = healthy("large-orifice");
  const readings = shown(sound, "none", 0, gauges);
  const baseline = [{ conditions: sound.conditions, readings }];
  const narrow = diagnose({ ...asked(sound, readings), baseline });
  const wide = diagnosed(sound, readings);
  if (narrow.kind !== "diagnosis") throw new Error(narrow.reason);
  for (const [i, { healthy: band }] of narrow.readings.entries()) {
    expect(band.sd).toBeLessThan(wide.readings[i]?.healthy.sd ?? 0);
  }
});

describe("two runs of one vehicle", () => {
  const idle = healthy("large-orifice");
  const road: VehicleCase = {
    ...idle,
    conditions: {
      ...idle.conditions,
      speed: 20,
      engineSpeed: 28,
      returnAir: { kind: "pull-down", share: 0.85 },
    },
  };
  const read = [...gauges, "superheat", "liquidLine"] as const;
  const both = (fault: FaultName, severity: number) => ({
    healthy: idle,
    runs: [idle, road].map((at) => ({
      conditions: at.conditions,
      readings: shown(at, fault, severity, read),
    })),
  });
  const chanceOf = (found: ReturnType<typeof diagnose>, fault: FaultName): number => {
    if (found.kind !== "diagnosis") throw new Error(found.reason);
    return found.faults.find(({ name }) => name === fault)?.probability ?? 0;
  };

  test("tell more together than either alone", () => {
    const request = both("weak-compressor", 0.5);
    const joint = chanceOf(diagnose(request), "weak-compressor");
    for (const run of request.runs) {
      const alone = chanceOf(diagnose({ ...request, runs: [run] }), "weak-compressor");
      expect(joint).toBeGreaterThan(alone);
    }
    expect(joint).toBeGreaterThan(0.9);
  });

  test("say where each sign was read, and what to read next is not what was read", () => {
    const found = diagnose(both("undercharge", 0.3));
    if (found.kind !== "diagnosis") throw new Error(found.reason);
    expect(found.readings.map(({ run }) => run)).toEqual([0, 0, 0, 0, 0, 1, 1, 1, 1, 1]);
    expect(found.faults[0]?.signs.map(({ run }) => run)).toEqual(
      found.readings.map(({ run }) => run),
    );
    for (const { where, quantity } of found.next) {
      expect(["idle", "road"]).not.toContain(where);
      if (where === "here") expect(read).not.toContain(quantity);
    }
  });

  test("the same run twice is hardly more than once: instrument and model err alike", () => {
    const request = both("undercharge", 0.5);
    const [first] = request.runs;
    if (!first) throw new Error("there is no run");
    const once = chanceOf(diagnose({ ...request, runs: [first] }), "none");
    const twice = chanceOf(diagnose({ ...request, runs: [first, first] }), "none");
    // Two independent runs would square the odds.
    const odds = (p: number): number => Math.log(p / (1 - p));
    expect(Math.abs(odds(twice) - odds(once))).toBeLessThan(0.6 * Math.abs(odds(once)));
  });
});

test("the same twice", () => {
  const sound = healthy("midsize-expansion");
  const readings = shown(sound, "restriction", 0.5, gauges);
  expect(diagnosed(sound, readings)).toEqual(diagnosed(sound, readings));
});

test("any readings: probabilities sum to 1, nothing is NaN", () => {
  const sound = healthy("midsize-expansion");
  const label = saturationOf(sound.fill.composition);
  const model = label.kind === "saturation" && modelOf(asked(sound, []), label);
  if (!model) throw new Error("a sound vehicle does not run");
  const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      within(0, 120),
      within(20, 480),
      within(260, 330),
      fc.option(within(280, 350), { nil: undefined }),
      (low, high, vent, liquid) => {
        const readings: FaultReading[] = [
          { quantity: "low", value: 101325 + low * PSI },
          { quantity: "high", value: 101325 + high * PSI },
          { quantity: "vent", value: vent },
          ...(liquid === undefined ? [] : [{ quantity: "liquidLine" as const, value: liquid }]),
        ];
        const found = diagnoseWith(model, asked(sound, readings));
        const total = found.faults.reduce((sum, { probability }) => sum + probability, 0);
        expect(total).toBeCloseTo(1, 9);
        expect(JSON.stringify(found)).not.toMatch(/null|NaN/);
        if (found.named !== "healthy" && found.named !== "undecided") {
          expect(found.faults[0]?.independentSigns).toBeGreaterThanOrEqual(2);
        }
      },
    ),
    { numRuns: 8, seed: 11 },
  );
});
