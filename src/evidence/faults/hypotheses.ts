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

/** A system in a run, with a fault in it or not. */
export interface Faulty {
  readonly request: VehicleCase;
  /** The vent reads this much warmer than the coil's air, K: the vehicle's own, and heat let into the duct. */
  readonly ventOffset: number;
}

/** What stays the same from one run of a vehicle to the next. */
export type Kind = Pick<VehicleCase, "vehicle" | "fill">;

/** One way in which a vehicle may stand, with a severity that runs over a range. */
export interface Branch {
  readonly fault: FaultName;
  /** Chance of this branch before any reading. */
  readonly prior: number;
  /** Severities at which the model is solved, increasing; evenly likely over their range. */
  readonly nodes: readonly number[];
  /** What is inside, where that is the fault. */
  readonly substitute?: Composition;
  /** The fault in a run of the vehicle for which the branches were made: the same one in every run. */
  apply(severity: number, sound: Faulty): Faulty;
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
 * All branches for a sound vehicle: each changes one thing.
 *
 * Severities: share of the charge that is missing or too much; pressure of the air left in, Pa; share of air flow,
 * area or compressor flow that is lost; opening that a valve does not go below, or share of area too much of an
 * orifice; kelvins at the vent. Of another refrigerant: its charge over the mass that fills the same liquid volume.
 */
export function branchesOf({ vehicle, fill }: Kind): readonly Branch[] {
  const of = (
    fault: FaultName,
    nodes: readonly number[],
    change: (severity: number, healthy: VehicleCase) => Partial<VehicleCase>,
  ): Branch => ({
    fault,
    prior: priors[fault],
    nodes,
    apply: (severity, { request, ventOffset }) => ({
      request: { ...request, ...change(severity, request) },
      ventOffset,
    }),
  });
  const charged = (factor: number) => ({ fill: { ...fill, charge: factor * fill.charge } });
  const hard = (faults: Partial<typeof sound>) => ({ faults: { ...sound, ...faults } });
  return [
    of("none", [0], () => ({})),
    of("undercharge", [0.1, 0.2, 0.3, 0.4, 0.5, 0.65, 0.8], (s) => charged(1 - s)),
    of("overcharge", [0.1, 0.25, 0.4, 0.6, 0.8], (s) => charged(1 + s)),
    of("air", [4e3, 12e3, 25e3, 45e3, 75e3], (air) => ({ fill: { ...fill, air } })),
    of("condenser-airflow", [0.1, 0.25, 0.4, 0.55, 0.7], (s) => hard({ blockedCondenser: 1 - s })),
    of("restriction", [0.15, 0.3, 0.45, 0.6, 0.75, 0.88], (s) => hard({ restriction: 1 - s })),
    of("weak-compressor", [0.1, 0.25, 0.4, 0.55, 0.7], (s) => hard({ weakCompressor: 1 - s })),
    vehicle.expansion === "orifice"
      ? of("stuck-open", [0.2, 0.6, 1.2, 2], (s) => hard({ restriction: 1 + s }))
      : of("stuck-open", [0.3, 0.4, 0.5, 0.65, 0.85], stuckValve),
    ...substituteBranches(fill),
    {
      ...of("heat-leak", [1.5, 15], () => ({})),
      apply: (severity, { request, ventOffset }) => ({
        request,
        ventOffset: ventOffset + severity,
      }),
    },
    of("evaporator-airflow", [0.15, 0.3, 0.45, 0.6], lessBlower),
  ];
}

/** It does not close below an opening, whatever the bulb says; wider, liquid reaches the compressor and the model ends. */
function stuckValve(opening: number, { vehicle }: VehicleCase): Partial<VehicleCase> {
  const values = { ...vehicle.values, valveSmallestOpening: opening };
  return { vehicle: { ...vehicle, values } };
}

const lessBlower = (lost: number, { conditions }: VehicleCase): Partial<VehicleCase> => ({
  conditions: { ...conditions, blower: conditions.blower * (1 - lost) },
});

/** Room temperature, at which masses of equal liquid volume are compared, K. */
const ROOM = 298.15;

function substituteBranches(fill: Kind["fill"]): readonly Branch[] {
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
      apply: (severity, { request, ventOffset }) => ({
        request: { ...request, fill: { ...fill, composition, charge: severity * equal } },
        ventOffset,
      }),
    };
  });
}
