import { type Conditions, type Faults, type Fill, sound } from "./case.ts";
import type { Circuit, Regime } from "./circuit.ts";
import { gaugeReadings, type GaugeReadings } from "./gauge.ts";
import { type ChargeByPart, chargeByPart } from "./inventory.ts";
import { createNewtonWork, type NewtonWork } from "./newton.ts";
import { type Note, notesOf } from "./notes.ts";
import { propertyPack } from "./pack/build-pack.ts";
import { pureComposition } from "./pack/composition.ts";
import { temperatureAt } from "./pack/isobar.ts";
import type { NoPack, Pack } from "./pack/pack.ts";
import type { Vehicle } from "./parameters.ts";
import {
  solveSystem,
  type Start,
  startOf,
  type StopReason,
  type UnresolvedReason,
} from "./solve.ts";
import { systemOf } from "./build-system.ts";
import type { System } from "./system.ts";

/** A question to the model. */
export interface VehicleCase {
  readonly vehicle: Vehicle;
  readonly conditions: Conditions;
  readonly fill: Fill;
  readonly faults?: Faults;
  /** For checks of the model only: the control does not hold the suction pressure. */
  readonly heldOn?: boolean;
}

/** A point of the cycle: Pa, J/kg, K, kg/m³ left out. */
export interface CyclePoint {
  readonly at:
    | "suction"
    | "discharge"
    | "condensing-begins"
    | "condensing-ends"
    | "condenser-outlet"
    | "evaporator-inlet"
    | "evaporator-dew"
    | "evaporator-outlet";
  readonly p: number;
  readonly h: number;
  readonly T: number;
}

/** A steady state. SI. */
export interface Running extends GaugeReadings {
  readonly kind: "running";
  /** Air from the vents, K, and its humidity ratio. */
  readonly vent: number;
  readonly ventHumidity: number;
  /** Heat taken from the air, condensation of water included, W. */
  readonly capacity: number;
  /** At the shaft, mean, W. */
  readonly power: number;
  readonly cop: number;
  /** Gas behind the compressor, K. */
  readonly discharge: number;
  /** At the evaporator's outlet above the dew point; at the condenser's below the bubble point, K. */
  readonly superheat: number;
  readonly subcooling: number;
  /** Share of time or displacement. */
  readonly duty: number;
  /** kg/s. */
  readonly massFlow: number;
  readonly regime: Regime;
  readonly charge: ChargeByPart;
  /** Air that returns and air on the coil, K and kg/kg. */
  readonly returnAir: { readonly T: number; readonly humidityRatio: number };
  readonly coilAir: { readonly T: number; readonly humidityRatio: number };
  /** Coldest surface of the coil that condenses water, K. */
  readonly coilSurface: number;
  /** Share of the coil that boils refrigerant. */
  readonly wettedShare: number;
  readonly cycle: readonly CyclePoint[];
  readonly notes: readonly Note[];
  /** To begin a neighbouring case from. */
  readonly start: Start;
}

export type VehicleRun =
  | Running
  | {
      readonly kind: "stopped";
      readonly reason: StopReason;
      /** Resting pressure at ambient, Pa, and the limit that matters, Pa. */
      readonly resting: number;
      readonly limit: number;
    }
  | { readonly kind: "unresolved"; readonly reason: UnresolvedReason; readonly evaluations: number }
  | NoPack;

/** Workspace of runs; one per thread of work. */
export type RunWork = NewtonWork;
export const createRunWork = createNewtonWork;

/**
 * The steady state of a vehicle's system.
 *
 * @param start Of a neighbouring case: saves two thirds of the time and changes no answer.
 * @returns a steady state, why the system does not run, or that and why none was found. Never throws for a
 *          case inside the accepted ranges; no number in it is NaN.
 *
 * Limits: quasi-steady means; no oil, no frost growth, no shift of a blend's circulating composition.
 * Cost: about 0.2 ms, 0.05 ms from a start, after the property pack of the composition.
 * Source: docs/models/vehicle.md
 */
export function runVehicle(
  request: VehicleCase,
  work: RunWork = createRunWork(),
  start?: Start,
): VehicleRun {
  const outcome = propertyPack(request.fill.composition);
  if (outcome.kind !== "pack") return outcome;
  const bulb = propertyPack(pureComposition(request.vehicle.bulbFluid));
  if (bulb.kind !== "pack") return bulb;
  const sys = systemFor(request, outcome.pack, bulb.pack);
  const { circuit, end } = solveSystem(sys, request.vehicle.values.labelCharge, work, start);
  switch (end.kind) {
    case "running":
      return view(circuit);
    case "unresolved":
      return { kind: "unresolved", reason: end.reason, evaluations: circuit.evaluations };
    case "stopped":
      return {
        kind: "stopped",
        reason: end.reason,
        resting: sys.pRest,
        limit: limitOf(end.reason, sys),
      };
  }
}

/** The system of a request. */
export function systemFor(request: VehicleCase, pack: Pack, bulb: Pack): System {
  return systemOf({
    vehicle: request.vehicle,
    conditions: request.conditions,
    fill: request.fill,
    faults: request.faults ?? sound,
    heldOn: request.heldOn ?? false,
    pack,
    bulb,
  });
}

function limitOf(reason: StopReason, sys: System): number {
  switch (reason) {
    case "resting-pressure-too-low":
      return sys.pStart;
    case "no-load":
    case "liquid-to-compressor":
      return sys.pSet;
    case "high-pressure-trip":
      return sys.trip;
    case "above-property-table":
      return sys.pack.pMax;
  }
}

function view(circuit: Circuit): Running {
  const { c, e, dis } = circuit;
  const superheated = circuit.heo >= e.hd;
  return {
    kind: "running",
    ...gaugeReadings(circuit),
    vent: circuit.Tvent,
    ventHumidity: circuit.Wao,
    capacity: circuit.Qe,
    power: circuit.power,
    cop: circuit.Qe / circuit.power,
    discharge: temperatureAt(dis, circuit.hdis),
    superheat: superheated ? circuit.Teo - e.Td : 0,
    subcooling: circuit.hco < c.hb ? c.Tb - temperatureAt(c, circuit.hco) : 0,
    duty: circuit.D,
    massFlow: circuit.m,
    regime: circuit.regime,
    charge: chargeByPart(circuit),
    returnAir: { T: circuit.Tret, humidityRatio: circuit.Wret },
    coilAir: { T: circuit.Tai, humidityRatio: circuit.Wai },
    coilSurface: circuit.Tsurface,
    wettedShare: circuit.wet,
    cycle: cycleOf(circuit),
    notes: notesOf(circuit),
    start: startOf(circuit),
  };
}

function cycleOf(circuit: Circuit): readonly CyclePoint[] {
  const { c, e, s, dis } = circuit;
  const point = (at: CyclePoint["at"], iso: typeof c, h: number): CyclePoint => ({
    at,
    p: iso.p,
    h,
    T: temperatureAt(iso, h),
  });
  const { hco, hdis, heo } = circuit;
  const points = [point("suction", s, circuit.hs), point("discharge", dis, hdis)];
  if (hdis > c.hd && hco < c.hd) points.push(point("condensing-begins", c, c.hd));
  if (hco < c.hb) points.push(point("condensing-ends", c, c.hb));
  points.push(point("condenser-outlet", c, hco), point("evaporator-inlet", e, hco));
  if (heo > e.hd && hco < e.hd) points.push(point("evaporator-dew", e, e.hd));
  points.push(point("evaporator-outlet", e, heo));
  return points;
}
