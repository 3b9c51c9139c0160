import { type Composition, saturationOf, sound, type VehicleCase } from "../../vehicle/index.ts";
import { substitutesFor } from "./substitutes.ts";

export const faultNames = [
  "none",
  "undercharge",
  "overcharge",
  "air",
  "condenser-airflow",
  "restriction",
  "weak-compressor",
  "stuck-open",
  "wrong-refrigerant",
  "heat-leak",
  "evaporator-airflow",
] as const;
export type FaultName = (typeof faultNames)[number];

/** Chances before any reading: a sound vehicle dominates, lack of charge is the common fault (a choice, no source). */
const priors: Readonly<Record<FaultName, number>> = {
  none: 0.8,
  undercharge: 0.05,
  overcharge: 0.02,
  air: 0.02,
  "condenser-airflow": 0.025,
  restriction: 0.015,
  "weak-compressor": 0.015,
  "stuck-open": 0.015,
  "wrong-refrigerant": 0.02,
  "heat-leak": 0.015,
  "evaporator-airflow": 0.025,
};

/** A system with a fault in it. */
export interface Faulty {
  readonly request: VehicleCase;
  /** Heat let into the duct warms the vent by this, K; nothing else changes. */
  readonly ventOffset: number;
}

/** One way in which a vehicle may stand, with a severity that runs over a range. */
export interface Branch {
  readonly fault: FaultName;
  /** Chance of this branch before any reading. */
  readonly prior: number;
  /** Severities at which the model is solved, increasing; evenly likely over their range. */
  readonly nodes: readonly number[];
  /** What is inside, where that is the fault. */
  readonly substitute?: Composition;
  apply(severity: number): Faulty;
}

/** How a severity counts; every one grows with the fault. */
export const severityUnit: Readonly<Record<FaultName, "share" | "Pa" | "K" | "none">> = {
  none: "none",
  undercharge: "share",
  overcharge: "share",
  air: "Pa",
  "condenser-airflow": "share",
  restriction: "share",
  "weak-compressor": "share",
  "stuck-open": "share",
  "wrong-refrigerant": "none",
  "heat-leak": "K",
  "evaporator-airflow": "share",
};

/**
 * All branches for a sound case: each changes one thing.
 *
 * Severities: share of the charge that is missing or too much; pressure of the air left in, Pa; share of air flow,
 * area or compressor flow that is lost; opening that a valve does not go below, or share of area too much of an
 * orifice; kelvins at the vent. Of another refrigerant: its charge over the mass that fills the same liquid volume.
 *
 * @param vent What a baseline knows of the vent's offset, K.
 */
export function branchesOf(healthy: VehicleCase, vent = 0): readonly Branch[] {
  const { fill, vehicle } = healthy;
  const of = (
    fault: FaultName,
    nodes: readonly number[],
    apply: (severity: number) => VehicleCase,
  ): Branch => ({
    fault,
    prior: priors[fault],
    nodes,
    apply: (severity) => ({ request: apply(severity), ventOffset: vent }),
  });
  const charged = (factor: number): VehicleCase => ({
    ...healthy,
    fill: { ...fill, charge: factor * fill.charge },
  });
  const hard = (faults: Partial<typeof sound>): VehicleCase => ({
    ...healthy,
    faults: { ...sound, ...faults },
  });
  return [
    of("none", [0], () => healthy),
    of("undercharge", [0.1, 0.2, 0.3, 0.4, 0.5, 0.65, 0.8], (s) => charged(1 - s)),
    of("overcharge", [0.1, 0.25, 0.4, 0.6, 0.8], (s) => charged(1 + s)),
    of("air", [4e3, 12e3, 25e3, 45e3, 75e3], (air) => ({ ...healthy, fill: { ...fill, air } })),
    of("condenser-airflow", [0.1, 0.25, 0.4, 0.55, 0.7], (s) => hard({ blockedCondenser: 1 - s })),
    of("restriction", [0.15, 0.3, 0.45, 0.6, 0.75, 0.88], (s) => hard({ restriction: 1 - s })),
    of("weak-compressor", [0.1, 0.25, 0.4, 0.55, 0.7], (s) => hard({ weakCompressor: 1 - s })),
    vehicle.expansion === "orifice"
      ? of("stuck-open", [0.2, 0.6, 1.2, 2], (s) => hard({ restriction: 1 + s }))
      : of("stuck-open", [0.3, 0.4, 0.5, 0.65, 0.85], (s) => stuckValve(healthy, s)),
    ...substituteBranches(healthy, vent),
    {
      ...of("heat-leak", [1.5, 15], () => healthy),
      apply: (severity) => ({ request: healthy, ventOffset: vent + severity }),
    },
    of("evaporator-airflow", [0.15, 0.3, 0.45, 0.6], (s) => lessBlower(healthy, s)),
  ];
}

/** It does not close below an opening, whatever the bulb says; wider, liquid reaches the compressor and the model ends. */
function stuckValve(healthy: VehicleCase, opening: number): VehicleCase {
  const { vehicle } = healthy;
  const values = { ...vehicle.values, valveSmallestOpening: opening };
  return { ...healthy, vehicle: { ...vehicle, values } };
}

function lessBlower(healthy: VehicleCase, lost: number): VehicleCase {
  const { conditions } = healthy;
  return { ...healthy, conditions: { ...conditions, blower: conditions.blower * (1 - lost) } };
}

/** Room temperature, at which masses of equal liquid volume are compared, K. */
const ROOM = 298.15;

function substituteBranches(healthy: VehicleCase, vent: number): readonly Branch[] {
  const { fill } = healthy;
  const own = saturationOf(fill.composition);
  if (own.kind !== "saturation") return [];
  const others = substitutesFor(fill.composition).flatMap((composition) => {
    const other = saturationOf(composition);
    return other.kind === "saturation" ? [{ composition, other }] : [];
  });
  return others.map(({ composition, other }) => {
    const equal = (fill.charge * other.liquidDensity(ROOM)) / own.liquidDensity(ROOM);
    return {
      fault: "wrong-refrigerant",
      prior: priors["wrong-refrigerant"] / others.length,
      nodes: [0.75, 1, 1.15],
      substitute: composition,
      apply: (severity) => ({
        request: { ...healthy, fill: { ...fill, composition, charge: severity * equal } },
        ventOffset: vent,
      }),
    };
  });
}
