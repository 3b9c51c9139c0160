import type { Conditions, Faults, Fill } from "./case.ts";
import type { Pack } from "./pack/pack.ts";
import type { Vehicle } from "./parameters.ts";

/** One vehicle in one condition with one fill, reduced to the numbers that the circuit needs. SI. */
export interface System {
  readonly pack: Pack;
  /** Fluid in the valve's bulb. */
  readonly bulb: Pack;
  readonly orifice: boolean;
  readonly pAir: number;
  readonly Tamb: number;
  readonly Wamb: number;
  // Control
  /** Suction pressure held by the control at a head of 1.2 MPa, Pa, and its fall with the head. */
  readonly pSet: number;
  readonly pSetSlope: number;
  readonly lnSmallest: number;
  readonly trip: number;
  readonly variable: boolean;
  // Compressor
  readonly sweep: number;
  readonly etaV: number;
  readonly clearance: number;
  readonly etaIs: number;
  readonly etaIsRatio: number;
  readonly etaMech: number;
  readonly shellLoss: number;
  readonly Kc: number;
  readonly Ks: number;
  // Condenser
  readonly Tci: number;
  readonly Ca: number;
  readonly rebreathed: number;
  readonly UAa: number;
  readonly UAtp: number;
  readonly UAsh: number;
  readonly UAsc: number;
  readonly Q0c: number;
  readonly nc: number;
  readonly fsc: number;
  readonly pnc: number;
  // Expansion
  readonly area: number;
  readonly Cd: number;
  readonly flash: number;
  readonly flashX: number;
  readonly aMin: number;
  readonly spring: number;
  readonly aRange: number;
  // Evaporator and cabin
  readonly ma: number;
  readonly blowerRise: number;
  readonly recirculation: number;
  readonly UAo: number;
  readonly UAi: number;
  readonly UAiSh: number;
  readonly Q0e: number;
  readonly ne: number;
  readonly UAduct: number;
  readonly Tduct: number;
  readonly xAcc: number;
  /** 0: return air is known; 1: its temperature is; 2: both follow from the vent. */
  readonly returnKnown: 0 | 1 | 2;
  readonly Tret: number;
  readonly Wret: number;
  /** T_ret = retT0 + retT1·T_vent and the same of W. */
  readonly retT0: number;
  readonly retT1: number;
  readonly retW0: number;
  readonly retW1: number;
  // Charge
  readonly charge: number;
  readonly Vc: number;
  readonly Ve: number;
  readonly Vliq: number;
  readonly Vdis: number;
  readonly Vsuc: number;
  readonly Vacc: number;
  readonly fill: number;
  readonly Vtotal: number;
  /** Pressure of the resting system at ambient, Pa, and below which it does not start. */
  readonly pRest: number;
  readonly pStart: number;
  /** A cycling clutch, for what a gauge reads. */
  readonly cycling: boolean;
  readonly cyclingHead: number;
  readonly cycleFrom: number;
  readonly cycleTo: number;
}

/** What a system is made from. */
export interface SystemInput {
  readonly vehicle: Vehicle;
  readonly conditions: Conditions;
  readonly faults: Faults;
  readonly fill: Fill;
  readonly pack: Pack;
  readonly bulb: Pack;
  /** Model checks only: the control does not hold the suction pressure. */
  readonly heldOn: boolean;
}

/** All room for refrigerant, m³. */
export function volumeOf({ values: v }: Vehicle): number {
  return (
    v.condenserVolume +
    v.evaporatorVolume +
    v.liquidLineVolume +
    v.dischargeLineVolume +
    v.suctionLineVolume +
    v.bufferVolume
  );
}
