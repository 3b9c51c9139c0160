import { evaluateAt, intervalOf } from "../numerics/index.ts";
import { bracketCaloric } from "./caloric-bracket.ts";
import { newtonCaloric, type CaloricTarget, type PhaseBounds } from "./caloric-newton.ts";
import { evaluateIdeal, I2 } from "./ideal.ts";
import { evaluateProperties, H, S } from "./properties.ts";
import type { PureFluid } from "./pure-fluid.ts";
import { densitiesAt, lookUpLiquid, temperatureAt, xAt } from "./saturation-model.ts";
import { checkRange, outOfRange, singlePhase, twoPhase, type StateOutcome } from "./state.ts";
import type { StateWork } from "./state-work.ts";
import { startAboveCritical } from "./supercritical-guide.ts";

/**
 * State at a pressure and molar enthalpy.
 *
 * @param p, h  Pa, J/mol.
 * @returns     A state, or why there is none; `out-of-range` of h gives its limits at this pressure.
 * @throws      RangeError for a number that is not finite: the caller's bug.
 *
 * The saturation expansions decide the phase; in one phase Newton's method in T and ρ, and where
 * that fails a bracketed search in T with the density solved inside.
 */
export function statePH(
  fluid: PureFluid,
  p: number,
  h: number,
  work: StateWork = fluid.work,
): StateOutcome {
  return caloricFlash(fluid, { p, value: h, quantity: "h" }, work);
}

/** State at a pressure and molar entropy, J/(mol K); otherwise as {@link statePH}. */
export function statePS(
  fluid: PureFluid,
  p: number,
  s: number,
  work: StateWork = fluid.work,
): StateOutcome {
  return caloricFlash(fluid, { p, value: s, quantity: "s" }, work);
}

/** Of ln p: the lowest saturation pressure itself still has a liquid. */
const rounding = 1e-13;

function caloricFlash(fluid: PureFluid, target: CaloricTarget, work: StateWork): StateOutcome {
  const { p, value, quantity } = target;
  const { info, saturation } = fluid;
  const refused = checkRange("p", p, 0, info.pmax);
  if (refused) return refused;
  if (p === 0) return outOfRange("p", p, 0, info.pmax);
  if (!Number.isFinite(value)) throw new RangeError(`${quantity} is not finite: ${value}`);
  const { temperature, critical, states } = saturation;
  const lnP = Math.log(p);
  if (p >= critical.p) {
    const start = startAboveCritical(fluid.supercritical(), lnP, value, quantity);
    return onePhase(fluid, target, start, wholeRange(fluid), work);
  }
  if (lnP < temperature.breaks[0] - rounding) return rarefied(fluid, target, work);
  const Ts = Math.min(critical.T, Math.max(info.Tmin, temperatureAt(saturation, lnP)));
  const x = xAt(saturation, Ts);
  const place = intervalOf(states.breaks, x);
  const byH = quantity === "h";
  const low = evaluateAt(states, byH ? saturation.hL : saturation.sL, place, x);
  if (value < low) {
    const T = Math.min(Ts, lookUpLiquid(byH ? saturation.liquidByH : saturation.liquidByS, value));
    const rho = densitiesAt(saturation, xAt(saturation, T)).rhoL;
    const rhoLow = evaluateAt(states, states.tables[1], place, x);
    const bounds = {
      side: "liquid",
      Tlow: info.Tmin,
      Thigh: Ts,
      rhoLow,
      rhoHigh: Infinity,
    } as const;
    return onePhase(fluid, target, { T, rho }, bounds, work);
  }
  const high = evaluateAt(states, byH ? saturation.hV : saturation.sV, place, x);
  const rhoV = Math.exp(evaluateAt(states, states.tables[2], place, x));
  if (value <= high) {
    const q = Math.min(1, (value - low) / (high - low));
    const rhoL = evaluateAt(states, states.tables[1], place, x);
    return twoPhase(fluid, { kind: "saturated", T: Ts, p, rhoL, rhoV }, q);
  }
  const start = vapourStart(fluid, target, { T: Ts, rho: rhoV, value: high }, work);
  const bounds = { side: "gas", Tlow: Ts, Thigh: info.Tmax, rhoLow: 0, rhoHigh: rhoV } as const;
  return onePhase(fluid, target, start, bounds, work);
}

/** Below the lowest saturation pressure there is gas alone. */
function rarefied(fluid: PureFluid, target: CaloricTarget, work: StateWork): StateOutcome {
  const T = fluid.info.Tmin;
  const rho = target.p / (fluid.R * T);
  evaluateProperties(fluid, T, rho, work);
  const value = work.out[target.quantity === "h" ? H : S];
  const start = vapourStart(fluid, target, { T, rho, value }, work);
  return onePhase(fluid, target, start, { ...wholeRange(fluid), side: "gas" }, work);
}

function wholeRange({ info }: PureFluid): PhaseBounds {
  return { side: "stable", Tlow: info.Tmin, Thigh: info.Tmax, rhoLow: 0, rhoHigh: Infinity };
}

/**
 * Temperature and density of a superheated vapour, roughly: constant heat capacity from
 * saturation, and a compressibility factor that tends to 1 with the cube of the temperature.
 */
function vapourStart(
  fluid: PureFluid,
  { p, value, quantity }: CaloricTarget,
  saturated: { readonly T: number; readonly rho: number; readonly value: number },
  work: StateWork,
): { readonly T: number; readonly rho: number } {
  const { R, Tr, info } = fluid;
  const Ts = saturated.T;
  evaluateIdeal(fluid.ideal, Tr / Ts, work.ideal);
  const cp = 1.1 * R * (1 - work.ideal[I2]);
  const rise = (value - saturated.value) / cp;
  const T = Math.min(info.Tmax, quantity === "h" ? Ts + rise : Ts * Math.exp(rise));
  const share = Ts / T;
  const Z = 1 - (1 - p / (saturated.rho * R * Ts)) * share * share * share;
  return { T, rho: Math.min(saturated.rho, p / (Z * R * T)) };
}

function onePhase(
  fluid: PureFluid,
  target: CaloricTarget,
  start: { readonly T: number; readonly rho: number },
  bounds: PhaseBounds,
  work: StateWork,
): StateOutcome {
  if (!newtonCaloric(fluid, target, start, bounds, work)) {
    const failure = bracketCaloric(fluid, target, bounds, work);
    if (failure) return failure;
  }
  return singlePhase(fluid, work.T, target.p, work.delta * fluid.rhor, work);
}
