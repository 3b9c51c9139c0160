import {
  type Composition,
  type Conditions,
  type Faults,
  type PresetName,
  presetVehicle,
  type Running,
  runVehicle,
  sound,
  type VehicleCase,
} from "../../src/vehicle/index.ts";

export const PSI = 6894.757293168;
const SEA_LEVEL = 101325;

/** Gauge pressure at sea level, psi. */
export const psig = (p: number): number => (p - SEA_LEVEL) / PSI;
export const celsius = (T: number): number => T - 273.15;

const blend = (ids: Composition["ids"], fractions: readonly number[]): Composition => ({
  ids,
  fractions,
});
/** Fluids by the short names of the tables. */
export const fluids = {
  R134a: blend(["R134a"], [1]),
  R1234yf: blend(["R1234yf"], [1]),
  R152a: blend(["R152a"], [1]),
  R290: blend(["R290"], [1]),
  R600a: blend(["R600a"], [1]),
  HC60: blend(["R290", "R600a"], [0.6, 0.4]),
  HC50: blend(["R290", "R600a"], [0.5, 0.5]),
} as const;
export type FluidName = keyof typeof fluids;

/** Full blower, recirculation, sea level; the rest by name. */
export function conditions(given: {
  readonly celsius: number;
  readonly humidity: number;
  readonly rpm: number;
  readonly speed?: number;
  /** Share of the pull-down. */
  readonly share: number;
}): Conditions {
  return {
    ambient: given.celsius + 273.15,
    humidity: given.humidity,
    pAir: SEA_LEVEL,
    speed: given.speed ?? 0,
    engineSpeed: given.rpm / 60,
    blower: 1,
    recirculation: 1,
    returnAir: { kind: "pull-down", share: given.share },
    occupants: 1,
  };
}

const MPH = 0.44704;
/** The conditions of the sanity table. */
export const tableConditions = {
  i27: conditions({ celsius: 27, humidity: 0.5, rpm: 700, share: 0.45 }),
  r27: conditions({ celsius: 27, humidity: 0.5, rpm: 1600, speed: 45 * MPH, share: 0.9 }),
  i32: conditions({ celsius: 32.5, humidity: 0.45, rpm: 700, share: 0.45 }),
  r32: conditions({ celsius: 32.5, humidity: 0.45, rpm: 1800, speed: 55 * MPH, share: 0.9 }),
  d35: conditions({ celsius: 35, humidity: 0.4, rpm: 900, share: 0 }),
} as const;

/** A case by names; the charge is a multiple of the label's. */
export function scenario(given: {
  readonly preset: PresetName;
  readonly fluid: FluidName;
  readonly charge: number;
  readonly conditions: Conditions;
  readonly faults?: Partial<Faults>;
  readonly air?: number;
  readonly heldOn?: boolean;
}): VehicleCase {
  const vehicle = presetVehicle(given.preset);
  return {
    vehicle,
    conditions: given.conditions,
    faults: { ...sound, ...given.faults },
    heldOn: given.heldOn ?? false,
    fill: {
      composition: fluids[given.fluid],
      charge: given.charge * vehicle.values.labelCharge,
      air: given.air ?? 0,
    },
  };
}

/** A run that must be running. */
export function runs(request: VehicleCase): Running {
  const run = runVehicle(request);
  if (run.kind !== "running") throw new Error(JSON.stringify(run));
  return run;
}
