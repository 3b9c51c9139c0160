import { createMoistWork, R_AIR, saturatedRatio } from "./moist.ts";
import { type System, type SystemInput, volumeOf } from "./system.ts";

/** Heat and moisture of a person, W and kg/s (common practice, no source). */
const PERSON_HEAT = 80;
const PERSON_WATER = 2e-5;
/** Share of the condenser in which air that cannot condense gathers, and its excess over the inlet air, K (common practice, crude). */
const AIR_SHARE = 0.62;
const AIR_EXCESS = 18;
/** Humidity ratio of air of a relative humidity. */
export function humidityRatio(T: number, relative: number, pAir: number): number {
  const work = createMoistWork();
  const saturated = saturatedRatio(T, pAir, work);
  const p = (relative * saturated * pAir) / (0.621945 + saturated);
  return (0.621945 * p) / (pAir - p);
}

/** Air through the condenser, its warming, and air caught inside. */
export function condenserAir({ vehicle, conditions, faults, fill }: SystemInput, calm: number) {
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

/** What is known of the return air, or the laws that it follows. */
export function returnOf({ vehicle, conditions }: SystemInput, ma: number, Wamb: number) {
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
