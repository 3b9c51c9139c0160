import { createRandom, type Random } from "../../src/numerics/index.ts";
import {
  type Composition,
  type Conditions,
  type Faults,
  type ParameterName,
  plausibleRange,
  applies,
  parameterNames,
  presetNames,
  presetVehicle,
  propertyPack,
  type Vehicle,
} from "../../src/vehicle/index.ts";

/** Fluids and blends of the survey, mass fractions. */
export const surveyFluids: readonly Composition[] = [
  { ids: ["R134a"], fractions: [1] },
  { ids: ["R1234yf"], fractions: [1] },
  { ids: ["R152a"], fractions: [1] },
  { ids: ["R290"], fractions: [1] },
  { ids: ["R600a"], fractions: [1] },
  { ids: ["R290", "R600a"], fractions: [0.6, 0.4] },
  { ids: ["R290", "R600a"], fractions: [0.5, 0.5] },
  { ids: ["R134a", "R600a"], fractions: [0.8, 0.2] },
];

export interface RandomCase {
  readonly vehicle: Vehicle;
  readonly conditions: Conditions;
  readonly faults: Faults;
  readonly composition: Composition;
  /** kg. */
  readonly charge: number;
  /** Pa. */
  readonly air: number;
}

/** Charge of equal liquid volume at 25 °C as the label's: the target of a fluid that names none. */
export function equalVolumeCharge(vehicle: Vehicle, composition: Composition): number {
  return vehicle.values.labelCharge * (liquidDensity(composition) / 1206.7);
}

function liquidDensity(composition: Composition): number {
  const outcome = propertyPack(composition);
  if (outcome.kind !== "pack") throw new Error(outcome.reason);
  const { liquidT, lH, liquidH, lRho } = outcome.pack;
  const h = lH[Math.round((298.15 - liquidT.from) / liquidT.step)] ?? 0;
  return lRho[Math.round((h - liquidH.from) / liquidH.step)] ?? 0;
}

/** Draws plausible cases: parameters over their ranges, faults in a fifth of the cases each. */
export function randomCase(random: Random): RandomCase {
  const between = (from: number, to: number): number => from + (to - from) * random();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const preset = presetVehicle(pick(presetNames));
  const values = Object.fromEntries(
    parameterNames.map((name) => {
      const { from, to } = plausibleRange(preset, name);
      const value = applies(preset, name) ? between(from, to) : preset.values[name];
      return [name, value];
    }),
  ) as Record<ParameterName, number>;
  const vehicle: Vehicle = { ...preset, values };
  const composition = pick(surveyFluids);
  const sometimes = (from: number, to: number): number => (random() < 0.2 ? between(from, to) : 1);
  const charge = Math.exp(between(Math.log(0.15), Math.log(1.4)));
  const measured = random() < 0.3;
  const ambient = between(268.15, 323.15);
  return {
    vehicle,
    composition,
    charge: charge * equalVolumeCharge(vehicle, composition),
    air: random() < 0.2 ? between(0, 1e5) : 0,
    faults: {
      weakCompressor: sometimes(0.5, 1),
      blockedCondenser: sometimes(0.35, 1),
      restriction: sometimes(0.3, 1),
    },
    conditions: {
      ambient,
      humidity: between(0.05, 0.95),
      pAir: between(75e3, 103e3),
      speed: random() < 0.4 ? 0 : between(0, 35),
      engineSpeed: between(600, 4000) / 60,
      blower: between(0.25, 1),
      recirculation: random() < 0.3 ? 0 : 1,
      returnAir: measured
        ? { kind: "measured", T: ambient - between(-5, 12) }
        : { kind: "pull-down", share: between(0, 0.95) },
      occupants: Math.floor(between(0, 5)),
    },
  };
}

export const seededCases = (seed: number, count: number): readonly RandomCase[] => {
  const random = createRandom(seed);
  return Array.from({ length: count }, () => randomCase(random));
};
