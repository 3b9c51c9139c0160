import { evaluateAt, intervalOf } from "../numerics/index.ts";
import type { PureFluid } from "./pure-fluid.ts";
import { CP, CV, evaluateProperties, H, MW2, S } from "./properties.ts";
import { temperatureAt, xAt } from "./saturation-model.ts";
import type { StateWork } from "./state-work.ts";

/** Coexisting liquid and vapour. K, Pa, mol/m³. */
export interface Saturated {
  readonly kind: "saturated";
  readonly T: number;
  readonly p: number;
  readonly rhoL: number;
  readonly rhoV: number;
}

/** A temperature or pressure at which liquid and vapour do not coexist, or not in this equation. */
export interface SaturationRange {
  readonly kind: "out-of-range";
  readonly quantity: "T" | "p";
  readonly value: number;
  /** Ends of the saturation curve of the equation. */
  readonly from: number;
  readonly to: number;
  readonly reason: "supercritical" | "below-minimum";
}

export type Saturation = Saturated | SaturationRange;

/**
 * Saturation at a temperature.
 *
 * @param T  Temperature, K.
 * @throws   RangeError if T is not finite: the caller's bug.
 *
 * Cost: three expansions, no iteration; allocates the result only.
 */
export function saturationAtT(fluid: PureFluid, T: number): Saturation {
  const { saturation, info } = fluid;
  const { states, critical } = saturation;
  if (!(T >= info.Tmin && T <= critical.T)) return outside("T", T, info.Tmin, critical.T);
  const x = xAt(saturation, T);
  const place = intervalOf(states.breaks, x);
  return {
    kind: "saturated",
    T,
    p: Math.exp(evaluateAt(states, states.tables[0], place, x)),
    rhoL: evaluateAt(states, states.tables[1], place, x),
    rhoV: Math.exp(evaluateAt(states, states.tables[2], place, x)),
  };
}

/** Of ln p: the lowest saturation pressure is still inside. */
const rounding = 1e-13;

/**
 * Saturation at a pressure.
 *
 * @param p  Absolute pressure, Pa.
 * @throws   RangeError if p is not finite: the caller's bug.
 *
 * Cost: three expansions and a logarithm, no iteration; allocates the result only.
 */
export function saturationAtP(fluid: PureFluid, p: number): Saturation {
  const { saturation, info } = fluid;
  const { states, critical, temperature } = saturation;
  const lnP = Math.log(p);
  const lowest = temperature.breaks[0];
  if (!(lnP >= lowest - rounding && p <= critical.p))
    return outside("p", p, Math.exp(lowest), critical.p);
  const T = Math.max(info.Tmin, Math.min(critical.T, temperatureAt(saturation, lnP)));
  const x = xAt(saturation, T);
  const place = intervalOf(states.breaks, x);
  return {
    kind: "saturated",
    T,
    p,
    rhoL: evaluateAt(states, states.tables[1], place, x),
    rhoV: Math.exp(evaluateAt(states, states.tables[2], place, x)),
  };
}

function outside(quantity: "T" | "p", value: number, from: number, to: number): SaturationRange {
  if (!Number.isFinite(value)) throw new RangeError(`${quantity} is not finite: ${value}`);
  const reason = value > to ? "supercritical" : "below-minimum";
  return { kind: "out-of-range", quantity, value, from, to, reason };
}

/** Caloric properties of one saturated phase: J/mol, J/(mol K), m/s. */
export interface PhaseProperties {
  readonly rho: number;
  readonly h: number;
  readonly s: number;
  readonly cp: number;
  readonly cv: number;
  readonly w: number;
}

/**
 * Properties of both phases of a saturation state, straight from the equation.
 *
 * @param saturated  From {@link saturationAtT} or {@link saturationAtP} of the same fluid.
 *
 * Cost: two evaluations of the equation.
 */
export function saturatedPhases(
  fluid: PureFluid,
  saturated: Saturated,
  work: StateWork = fluid.work,
): { readonly liquid: PhaseProperties; readonly vapour: PhaseProperties } {
  const { T, rhoL, rhoV } = saturated;
  return {
    liquid: phaseProperties(fluid, T, rhoL, work),
    vapour: phaseProperties(fluid, T, rhoV, work),
  };
}

function phaseProperties(
  fluid: PureFluid,
  T: number,
  rho: number,
  work: StateWork,
): PhaseProperties {
  evaluateProperties(fluid, T, rho, work);
  const { out } = work;
  const w = Math.sqrt(out[MW2] / fluid.info.M);
  return { rho, h: out[H], s: out[S], cp: out[CP], cv: out[CV], w };
}
