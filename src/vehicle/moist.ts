import { waterSaturation } from "../air/index.ts";
import { along, createWeights, place, type Weights } from "./pack/interpolate.ts";
import type { EvenAxis } from "./pack/pack.ts";

// Moist air in the marches of a coil: the relations of room `air`, of which only the water's
// saturation pressure is costly, so that is read from a table. Per kg of dry air, K, Pa, J/kg.

/** Heat capacities of dry air and of vapour, J/(kg K), and the heat of vaporisation at 0 °C, J/kg: ASHRAE Fundamentals 2017, chapter 1, equation 30. */
export const CP_AIR = 1006;
const CP_VAPOUR = 1860;
const HEAT = 2501000;
const ZERO = 273.15;
/** Ratio of molar masses, same chapter, equation 20. */
const RATIO = 0.621945;
/** Gas constant of dry air, J/(kg K). */
export const R_AIR = 287.042;

const axis: EvenAxis = { from: 223.15, step: 1, count: 141 };
const lnSaturation = Float64Array.from({ length: axis.count }, (_, k) => lnPressure(axis.from + k));

function lnPressure(T: number): number {
  const at = waterSaturation(T);
  if (at.kind !== "pressure") throw new RangeError(`no saturation of water at ${T} K`);
  return Math.log(at.p);
}

/** Scratch of the table. */
export const createMoistWork = createWeights;

/** Humidity ratio of saturated air. */
export function saturatedRatio(T: number, pAir: number, work: Weights): number {
  const inside = Math.min(axis.from + axis.step * (axis.count - 1), Math.max(axis.from, T));
  place(axis, inside, work);
  const p = Math.min(0.6 * pAir, Math.exp(along(lnSaturation, work)));
  return (RATIO * p) / (pAir - p);
}

export const airEnthalpy = (T: number, W: number): number =>
  CP_AIR * (T - ZERO) + W * (HEAT + CP_VAPOUR * (T - ZERO));

export const airTemperature = (h: number, W: number): number =>
  ZERO + (h - HEAT * W) / (CP_AIR + CP_VAPOUR * W);

export const airCp = (W: number): number => CP_AIR + CP_VAPOUR * W;

/** Enthalpy of saturated air. */
export const saturatedEnthalpy = (T: number, pAir: number, work: Weights): number =>
  airEnthalpy(T, saturatedRatio(T, pAir, work));

/** Temperature of saturated air of an enthalpy, from a guess: secant steps. */
export function saturatedTemperature(
  h: number,
  pAir: number,
  guess: number,
  work: Weights,
): number {
  let T = Math.min(360, Math.max(225, guess));
  for (let k = 0; k < 12; k++) {
    const here = saturatedEnthalpy(T, pAir, work);
    const slope = (saturatedEnthalpy(T + 0.05, pAir, work) - here) / 0.05;
    const step = (h - here) / slope;
    T = Math.min(362, Math.max(224, T + step));
    if (Math.abs(step) < 1e-8) break;
  }
  return T;
}
