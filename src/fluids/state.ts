import { solveDensity } from "./density.ts";
import {
  CP,
  CV,
  DP_DRHO,
  DP_DT,
  evaluateProperties,
  H,
  MW2,
  P,
  propertiesAtDensity,
  S,
  U,
} from "./properties.ts";
import { evaluateIdeal } from "./ideal.ts";
import type { PureFluid } from "./pure-fluid.ts";
import {
  saturationAtP,
  saturationAtT,
  type Saturated,
  type SaturationRange,
} from "./saturation.ts";
import { densitiesAt, pressureAt, xAt } from "./saturation-model.ts";
import { evaluateAt, intervalOf } from "../numerics/index.ts";
import type { StateWork } from "./state-work.ts";

/**
 * Where a state lies. With Tc, pc the critical point of the equation:
 *
 * - `two-phase`: liquid and vapour coexist, their ends included;
 * - `liquid`: T < Tc, p ≤ pc, denser than saturated liquid; `gas`: T < Tc, thinner than saturated vapour;
 * - `supercritical`: T ≥ Tc and p > pc; `supercritical-liquid`: T < Tc and p > pc;
 *   `supercritical-gas`: T ≥ Tc and p ≤ pc.
 */
export type Phase =
  "liquid" | "gas" | "two-phase" | "supercritical" | "supercritical-liquid" | "supercritical-gas";

/** A state of equilibrium. K, Pa, mol/m³, J/mol, J/(mol K), m/s. */
export interface State {
  readonly kind: "state";
  readonly T: number;
  readonly p: number;
  readonly rho: number;
  readonly h: number;
  readonly s: number;
  readonly u: number;
  /** Heat capacities and speed of sound have no single value in two phases. */
  readonly cv: number | null;
  readonly cp: number | null;
  readonly w: number | null;
  /** Molar vapour fraction; of a pure fluid also the mass quality. */
  readonly q: number | null;
  readonly phase: Phase;
}

export type Quantity = "T" | "p" | "rho" | "q" | "h" | "s";

/** Why there is no state. */
export type StateFailure =
  | {
      readonly kind: "failed";
      /** Outside the equation's limits, or asked for two phases where there are none. */
      readonly reason: "out-of-range" | "supercritical" | "below-minimum";
      readonly quantity: Quantity;
      readonly value: number;
      readonly from: number;
      readonly to: number;
    }
  | {
      readonly kind: "failed";
      readonly reason: "not-converged";
      readonly quantity: Quantity;
      /** The value asked for and the nearest one reached, at this T and p. */
      readonly value: number;
      readonly reached: number;
      readonly T: number;
      readonly p: number;
      readonly iterations: number;
    };

export type StateOutcome = State | StateFailure;

/**
 * State at a temperature and density; two phases inside the dome.
 *
 * @param T, rho  K, mol/m³.
 * @throws        RangeError for a number that is not finite: the caller's bug.
 */
export function stateTRho(
  fluid: PureFluid,
  T: number,
  rho: number,
  work: StateWork = fluid.work,
): StateOutcome {
  const { info, saturation } = fluid;
  const refused = checkRange("T", T, info.Tmin, info.Tmax) ?? checkRange("rho", rho, 0, Infinity);
  if (refused) return refused;
  if (rho === 0) return outOfRange("rho", rho, 0, Infinity);
  if (T < saturation.critical.T) {
    const x = xAt(saturation, T);
    const { rhoL, rhoV } = densitiesAt(saturation, x);
    if (rho > rhoV && rho < rhoL) {
      const q = (1 / rho - 1 / rhoL) / (1 / rhoV - 1 / rhoL);
      return twoPhase(fluid, { kind: "saturated", T, p: pressureAt(saturation, x), rhoL, rhoV }, q);
    }
  }
  evaluateProperties(fluid, T, rho, work);
  const p = work.out[P];
  return checkRange("p", p, 0, info.pmax) ?? singlePhase(fluid, T, p, rho, work);
}

/**
 * State at a temperature and pressure; exactly on the saturation curve it is the liquid.
 *
 * @param T, p  K, Pa.
 * @throws      RangeError for a number that is not finite: the caller's bug.
 */
export function stateTP(
  fluid: PureFluid,
  T: number,
  p: number,
  work: StateWork = fluid.work,
): StateOutcome {
  const { info } = fluid;
  const refused = checkRange("T", T, info.Tmin, info.Tmax) ?? checkRange("p", p, 0, info.pmax);
  if (refused) return refused;
  if (p === 0) return outOfRange("p", p, 0, info.pmax);
  if (!solveDensity(fluid, T, p, work)) return densityFailure(fluid, T, p, work);
  const rho = work.delta * fluid.rhor;
  evaluateIdeal(fluid.ideal, fluid.Tr / T, work.ideal);
  propertiesAtDensity(fluid, T, rho, work);
  return singlePhase(fluid, T, p, rho, work);
}

/**
 * Coexisting liquid and vapour at a temperature and molar vapour fraction.
 *
 * @param T, q  K; 0 to 1.
 * @throws      RangeError for a number that is not finite: the caller's bug.
 */
export function stateTQ(fluid: PureFluid, T: number, q: number): StateOutcome {
  return checkRange("q", q, 0, 1) ?? fromSaturation(fluid, saturationAtT(fluid, T), q);
}

/**
 * Coexisting liquid and vapour at a pressure and molar vapour fraction.
 *
 * @param p, q  Pa; 0 to 1.
 * @throws      RangeError for a number that is not finite: the caller's bug.
 */
export function statePQ(fluid: PureFluid, p: number, q: number): StateOutcome {
  return checkRange("q", q, 0, 1) ?? fromSaturation(fluid, saturationAtP(fluid, p), q);
}

function fromSaturation(
  fluid: PureFluid,
  saturation: Saturated | SaturationRange,
  q: number,
): StateOutcome {
  if (saturation.kind === "saturated") return twoPhase(fluid, saturation, q);
  const { quantity, value, from, to, reason } = saturation;
  return { kind: "failed", reason, quantity, value, from, to };
}

/** Mixes the phases of a saturation state. */
export function twoPhase(fluid: PureFluid, saturated: Saturated, q: number): State {
  const { states, hL, hV, sL, sV } = fluid.saturation;
  const { T, p, rhoL, rhoV } = saturated;
  const x = xAt(fluid.saturation, T);
  const place = intervalOf(states.breaks, x);
  const mix = (liquid: Float64Array, vapour: Float64Array): number =>
    (1 - q) * evaluateAt(states, liquid, place, x) + q * evaluateAt(states, vapour, place, x);
  const h = mix(hL, hV);
  const rho = 1 / ((1 - q) / rhoL + q / rhoV);
  return {
    kind: "state",
    T,
    p,
    rho,
    h,
    s: mix(sL, sV),
    u: h - p / rho,
    cv: null,
    cp: null,
    w: null,
    q,
    phase: "two-phase",
  };
}

/**
 * At the critical point (∂p/∂ρ)/(RT) is 0 and what is computed is rounding: of the equation at
 * T ≥ Tc, of the place of the dome below. Less than this is a state that does not exist.
 */
const criticalRounding = 1e-7;
/** There cp has no limit; it is given with this stiffness: a large, finite number. */
const smallestStiffness = 1e-14;

function largestCp(R: number, rho: number, out: Float64Array): number {
  const slope = out[DP_DT] / (rho * R);
  return out[CV] + (R * slope * slope) / smallestStiffness;
}

/** The state whose properties are in work.out. */
export function singlePhase(
  fluid: PureFluid,
  T: number,
  p: number,
  rho: number,
  work: StateWork,
): StateOutcome {
  const { out } = work;
  const stiffness = out[DP_DRHO] / (fluid.R * T);
  if (!(stiffness > -criticalRounding && out[MW2] > 0)) return unstable(fluid, T, p, rho);
  return {
    kind: "state",
    T,
    p,
    rho,
    h: out[H],
    s: out[S],
    u: out[U],
    cv: out[CV],
    cp: stiffness > smallestStiffness ? out[CP] : largestCp(fluid.R, rho, out),
    w: Math.sqrt(out[MW2] / fluid.info.M),
    q: null,
    phase: phaseOf(fluid, T, p, rho),
  };
}

function phaseOf({ critical }: PureFluid, T: number, p: number, rho: number): Phase {
  if (T >= critical.T) return p > critical.p ? "supercritical" : "supercritical-gas";
  if (p > critical.p) return "supercritical-liquid";
  return rho > critical.rho ? "liquid" : "gas";
}

/** A homogeneous state that cannot exist: only on the very critical point, by rounding. */
function unstable(fluid: PureFluid, T: number, p: number, rho: number): StateFailure {
  const reached = fluid.critical.rho;
  return {
    kind: "failed",
    reason: "not-converged",
    quantity: "rho",
    value: rho,
    reached,
    T,
    p,
    iterations: 0,
  };
}

function densityFailure(fluid: PureFluid, T: number, p: number, work: StateWork): StateFailure {
  const { iterations } = work;
  evaluateProperties(fluid, T, work.delta * fluid.rhor, work);
  const reached = work.out[P];
  return {
    kind: "failed",
    reason: "not-converged",
    quantity: "p",
    value: p,
    reached,
    T,
    p,
    iterations,
  };
}

/** Room for the rounding of a value that is meant to be a limit itself. */
const limitSlack = 1e-9;

/** A failure if a value lies outside its limits. */
export function checkRange(
  quantity: Quantity,
  value: number,
  from: number,
  to: number,
): StateFailure | undefined {
  if (!Number.isFinite(value)) throw new RangeError(`${quantity} is not finite: ${value}`);
  if (value >= from * (1 - limitSlack) && value <= to * (1 + limitSlack)) return undefined;
  return outOfRange(quantity, value, from, to);
}

/** The failure of a value outside its limits. */
export function outOfRange(
  quantity: Quantity,
  value: number,
  from: number,
  to: number,
): StateFailure {
  return { kind: "failed", reason: "out-of-range", quantity, value, from, to };
}
