import type { Conditions, Faults, Fill } from "./case.ts";
import { createMoistWork, R_AIR, saturatedRatio } from "./moist.ts";
import { createWeights } from "./pack/interpolate.ts";
import { createIsobar, dewPressureAt, setPressure } from "./pack/isobar.ts";
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

/** Heat and moisture of a person, W and kg/s (common practice, no source). */
const PERSON_HEAT = 80;
const PERSON_WATER = 2e-5;
/** Systems without a low-pressure switch start above this, Pa (common practice, no source). */
const START_WITHOUT_SWITCH = 0.18e6;
/** Share of the condenser in which air that cannot condense gathers, and its excess over the inlet air, K (common practice, crude). */
const AIR_SHARE = 0.62;
const AIR_EXCESS = 18;
/** Half width of a fin thermistor's cycle, K (common practice, no source). */
const FIN_CYCLE = 1.5;

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

/** Reduces a vehicle, its conditions, faults and fill to the numbers of the circuit. */
export function systemOf(input: SystemInput): System {
  const { vehicle, conditions, pack, bulb } = input;
  const v = vehicle.values;
  const { pAir, ambient } = conditions;
  const calm = Math.exp(-conditions.speed / Math.max(0.1, v.preheatSpeed));
  const N = (conditions.engineSpeed * v.pulleyRatio - 25) / 25;
  const condenser = condenserAir(input, calm);
  const volumes = volumesOf(input);
  const ma = (v.airFlow * conditions.blower * pAir) / 101325;
  const Wamb = humidityRatio(ambient, conditions.humidity, pAir);
  return {
    pack,
    bulb,
    orifice: vehicle.expansion === "orifice",
    pAir,
    Tamb: ambient,
    Wamb,
    ...controlOf(input),
    lnSmallest: Math.log(Math.max(1e-3, v.smallestDuty)),
    trip: v.highCutOut,
    variable: vehicle.control === "displacement",
    sweep: v.displacement * conditions.engineSpeed * v.pulleyRatio,
    etaV: v.volumetricEfficiency * input.faults.weakCompressor * (1 - v.volumetricSpeedSlope * N),
    clearance: v.clearance,
    etaIs: v.isentropicEfficiency - v.isentropicSpeedSlope * N,
    etaIsRatio: v.isentropicRatioSlope / 16,
    etaMech: v.mechanicalEfficiency,
    shellLoss: v.shellLoss,
    Kc: v.dischargeResistance,
    Ks: v.suctionResistance,
    ...condenser,
    UAsh: v.condenserVapourUA,
    UAsc: v.condenserLiquidUA,
    Q0c: v.condenserLoadReference,
    nc: v.condenserLoadExponent,
    fsc: v.subcoolArea,
    area: v.orificeArea * input.faults.restriction,
    Cd: v.dischargeCoefficient,
    flash: v.flashDelay,
    flashX: v.flashDelayQuality,
    aMin: v.valveSmallestOpening,
    spring: v.valveSpring,
    aRange: v.valveRange,
    ma,
    blowerRise: (v.blowerPower * conditions.blower ** 2) / (ma * 1006),
    recirculation: conditions.recirculation,
    UAo: v.evaporatorAirUA * (ma / v.airFlow) ** v.evaporatorAirExponent,
    UAi: v.evaporatorTwoPhaseUA,
    UAiSh: v.evaporatorVapourUA,
    Q0e: v.evaporatorLoadReference,
    ne: v.evaporatorLoadExponent,
    UAduct: v.ductUA,
    Tduct: ambient + v.ductWarmth * calm,
    xAcc: v.accumulatorQuality,
    ...returnOf(input, ma, Wamb),
    charge: input.fill.charge,
    ...volumes,
    fill: v.bufferFill,
    cyclingHead: v.cyclingHead,
  };
}

function humidityRatio(T: number, relative: number, pAir: number): number {
  const work = createMoistWork();
  const saturated = saturatedRatio(T, pAir, work);
  const p = (relative * saturated * pAir) / (0.621945 + saturated);
  return (0.621945 * p) / (pAir - p);
}

function condenserAir({ vehicle, conditions, faults, fill }: SystemInput, calm: number) {
  const v = vehicle.values;
  const { ambient, engineSpeed, speed, pAir } = conditions;
  const fan = v.fanFlow * ((engineSpeed * 60) / 700) ** v.fanSpeedExponent;
  const V = faults.blockedCondenser * Math.cbrt(fan ** 3 + (v.ramFactor * v.faceArea * speed) ** 3);
  const Tci = ambient + v.preheat * calm;
  const mnc = (fill.air * volumeOf(vehicle)) / (R_AIR * ambient);
  const pnc = (mnc * R_AIR * (Tci + AIR_EXCESS)) / (AIR_SHARE * v.condenserVolume);
  return {
    Tci,
    Ca: (pAir / (R_AIR * ambient)) * V * 1006,
    rebreathed: v.recirculationShare * calm,
    UAa: v.condenserAirUA * (V / v.condenserAirReference) ** v.condenserAirExponent,
    pnc,
    UAtp: v.condenserTwoPhaseUA / (1 + (4 * pnc) / (1.2e6 + pnc)),
  };
}

function volumeOf({ values: v }: Vehicle): number {
  return (
    v.condenserVolume +
    v.evaporatorVolume +
    v.liquidLineVolume +
    v.dischargeLineVolume +
    v.suctionLineVolume +
    v.bufferVolume
  );
}

function volumesOf({ vehicle, conditions, fill, pack, heldOn }: SystemInput) {
  const v = vehicle.values;
  const Vtotal = volumeOf(vehicle);
  const bySwitch = vehicle.control === "switch";
  return {
    Vc: v.condenserVolume,
    Ve: v.evaporatorVolume,
    Vliq: v.liquidLineVolume,
    Vdis: v.dischargeLineVolume,
    Vsuc: v.suctionLineVolume,
    Vacc: v.bufferVolume,
    Vtotal,
    pRest: restPressure(pack, conditions.ambient, fill.charge / Vtotal),
    pStart: heldOn ? 0 : bySwitch ? v.switchCloses + conditions.pAir : START_WITHOUT_SWITCH,
  };
}

/** Pressure of the resting system at a temperature: that of the bubble point, or of a thin vapour. */
function restPressure(pack: Pack, T: number, rho: number): number {
  const iso = createIsobar(pack);
  const pDew = dewPressureAt(pack, T, createWeights());
  setPressure(iso, pDew);
  if (rho <= iso.rhoD) return (pDew * rho) / iso.rhoD;
  // Bubble pressure: the dew pressure of a pure fluid; of a blend between both, by the bubble line.
  if (!pack.glide) return pDew;
  let [low, high] = [pDew, pack.pMax];
  for (let k = 0; k < 40; k++) {
    const p = Math.sqrt(low * high);
    setPressure(iso, p);
    if (iso.Tb < T) low = p;
    else high = p;
  }
  return low;
}

function controlOf({ vehicle, conditions, pack, heldOn }: SystemInput) {
  const v = vehicle.values;
  const { pAir } = conditions;
  const held = { pSet: 1.01 * pack.pMin, pSetSlope: 0, cycling: false, cycleFrom: 0, cycleTo: 0 };
  if (heldOn) return held;
  switch (vehicle.control) {
    case "switch": {
      const mean = v.switchOpens + v.switchWeight * (v.switchCloses - v.switchOpens);
      return {
        pSet: pAir + mean,
        pSetSlope: 0,
        cycling: true,
        cycleFrom: pAir + v.switchOpens,
        cycleTo: pAir + v.switchCloses,
      };
    }
    case "fin": {
      const weights = createWeights();
      const T = v.finTemperature - v.finDifference;
      return {
        pSet: dewPressureAt(pack, T, weights),
        pSetSlope: 0,
        cycling: true,
        cycleFrom: dewPressureAt(pack, T - FIN_CYCLE, weights),
        cycleTo: dewPressureAt(pack, T + FIN_CYCLE, weights),
      };
    }
    case "displacement":
      return { ...held, pSet: pAir + v.suctionSetting, pSetSlope: v.suctionSlope };
  }
}

function returnOf({ vehicle, conditions }: SystemInput, ma: number, Wamb: number) {
  const v = vehicle.values;
  const { ambient, returnAir, pAir, speed, occupants } = conditions;
  const none = { retT0: 0, retT1: 0, retW0: 0, retW1: 0 };
  if (returnAir.kind === "measured") {
    const { T, humidity } = returnAir;
    const Wret = humidity === undefined ? Wamb : humidityRatio(T, humidity, pAir);
    return { returnKnown: humidity === undefined ? 1 : 0, Tret: T, Wret, ...none } as const;
  }
  const phi = returnAir.share;
  const [walls, air] = [v.cabinUA * (1 + 0.015 * speed), ma * 1006];
  const leak = v.cabinLeak * (1 + 0.03 * speed);
  const total = walls + air + leak * 1006;
  const gains = (walls + leak * 1006) * ambient + v.sun + PERSON_HEAT * occupants;
  const water = (leak * Wamb + PERSON_WATER * occupants) / (leak + ma);
  return {
    returnKnown: phi === 0 ? 0 : 2,
    Tret: ambient,
    Wret: Wamb,
    retT0: ambient + phi * (gains / total - ambient),
    retT1: (phi * air) / total,
    retW0: Wamb + phi * (water - Wamb),
    retW1: (phi * ma) / (leak + ma),
  } as const;
}

/** Return air that follows from a vent, into `out`: T, W. */
export function returnFrom(
  sys: System,
  Tvent: number,
  Wvent: number,
  out: { TretLaw: number; WretLaw: number },
  saturatedVent: number,
): void {
  if (sys.returnKnown === 2) {
    out.TretLaw = sys.retT0 + sys.retT1 * Tvent;
    out.WretLaw = sys.retW0 + sys.retW1 * Wvent;
    return;
  }
  out.TretLaw = sys.Tret;
  if (sys.returnKnown === 0) {
    out.WretLaw = sys.Wret;
    return;
  }
  // The cabin is as far dried as it is cooled, to 93 % of saturation at the vent (common practice, no source).
  const cooled = (sys.Tamb - sys.Tret) / Math.max(0.5, sys.Tamb - Tvent);
  const f = Math.min(1, Math.max(0, cooled));
  out.WretLaw = (1 - f) * sys.Wamb + f * Math.min(sys.Wamb, 0.93 * saturatedVent);
}
