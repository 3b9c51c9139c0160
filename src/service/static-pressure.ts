import {
  fluid as fluidOf,
  fluidIds,
  type FluidId,
  type PureFluid,
  saturationAtT,
} from "../fluids/index.ts";
import { combined, type Contribution, COVERAGE } from "./accuracy.ts";
import type { LocalAir } from "./local-air.ts";
import type { StaticVerdict } from "./static-data.ts";

export interface StaticReading {
  readonly fluid: PureFluid;
  /** Temperature of the metal around the liquid, K, with its standard uncertainty. */
  readonly metal: { readonly T: number; readonly u: number };
  /** Absolute pressure of the reading, Pa, with the standard uncertainty of the gauge. */
  readonly pressure: {
    readonly p: number;
    readonly u: number;
    readonly reference: "air" | "absolute";
  };
  readonly air: LocalAir;
  /** Internal volume of the system or vessel, m³. */
  readonly volume?: number | undefined;
}

export interface StaticCheck {
  readonly kind: "checked";
  readonly verdict: StaticVerdict;
  /** Saturation pressure of the expected fluid at the metal's temperature, Pa absolute. */
  readonly expected: number;
  /** 95 % band in which the reading should fall, Pa absolute. */
  readonly band: { readonly from: number; readonly to: number };
  /** Reading less expected, Pa. */
  readonly difference: number;
  /** Standard uncertainty of the difference, Pa, and what it is made of. */
  readonly u: number;
  readonly contributions: readonly Contribution[];
  /** Density of saturated vapour, kg/m³: mass per volume that shows this pressure without a drop of liquid. */
  readonly leastDensity: number;
  /** The same in the given volume, kg. */
  readonly leastMass: number | undefined;
  /** Other pure fluids whose saturation pressure lies in the interval of the reading. */
  readonly lookAlikes: readonly FluidId[];
}

/** The expected fluid has no saturation pressure there: too cold for its equation, or above its critical point. */
export interface NoSaturation {
  readonly kind: "no-saturation";
  readonly reason: "above-critical" | "too-cold";
  readonly T: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Relative standard uncertainty of a reference equation's saturation pressure. Publications state 0.02 to 0.5 %
 * at 95 %; one figure for all fluids (common practice, no source), small against any gauge of a shop.
 */
const EQUATION_U = 0.001;

/**
 * A band wider than this to either side, as a fraction of the absolute pressure, holds too much to say
 * "within": about 3 K of temperature, or air making up a tenth of the vapour (common practice, no source).
 */
const WIDE = 0.1;

/** Saturation pressure near T, held at the ends of the range so that an error of T is still worth something. */
function pressureNear(fluid: PureFluid, T: number, otherwise: number): number {
  const sat = saturationAtT(fluid, T);
  return sat.kind === "saturated" ? sat.p : otherwise;
}

function contributionsOf(reading: StaticReading, expected: number): readonly Contribution[] {
  const { fluid, metal, pressure, air } = reading;
  const above = pressureNear(fluid, metal.T + metal.u, expected);
  const below = pressureNear(fluid, metal.T - metal.u, expected);
  // Half the change over two standard uncertainties; at an end of the range only one side is known.
  const sides = Number(above !== expected) + Number(below !== expected);
  const thermometer = sides === 0 ? 0 : (above - below) / sides;
  const list = [
    { name: "gauge", u: pressure.u },
    { name: "thermometer", u: thermometer },
    { name: "equation of state", u: EQUATION_U * expected },
  ];
  return pressure.reference === "air" ? [...list, { name: "local air", u: air.u }] : list;
}

function verdictOf(difference: number, u: number, expected: number): StaticVerdict {
  if (difference > COVERAGE * u) return "higher";
  if (difference < -COVERAGE * u) return "lower";
  return COVERAGE * u > WIDE * expected ? "undecided" : "within";
}

/**
 * A static pressure against the saturation pressure of the expected fluid at the temperature of its metal.
 *
 * The band covers gauge, thermometer (through the slope of the saturation line), the equation, and the local air
 * where the gauge counts from it. A static pressure does not measure the charge: any mass above `leastMass`
 * shows the same.
 *
 * @returns the check, or `no-saturation` with the range of temperature in which the fluid boils.
 * @throws RangeError if the metal's temperature or the reading is not finite: the caller's bug.
 * Limits: pure fluids; a zeotrope lies between dew and bubble. Soaked: all liquid at one temperature.
 * Source: JCGM 100:2008 for the uncertainty; the fluid's own equation for the rest.
 * Checked: static-pressure.test.ts, test/published/static-pressure.test.ts.
 */
export function staticCheck(reading: StaticReading): StaticCheck | NoSaturation {
  const { fluid, metal, pressure, volume } = reading;
  if (!Number.isFinite(metal.T) || !Number.isFinite(pressure.p)) throw new RangeError("not finite");
  const sat = saturationAtT(fluid, metal.T);
  if (sat.kind === "out-of-range") {
    const reason = metal.T > sat.to ? "above-critical" : "too-cold";
    return { kind: "no-saturation", reason, T: metal.T, from: sat.from, to: sat.to };
  }
  const contributions = contributionsOf(reading, sat.p);
  const u = combined(contributions);
  const difference = pressure.p - sat.p;
  const leastDensity = sat.rhoV * fluid.info.M;
  return {
    kind: "checked",
    verdict: verdictOf(difference, u, sat.p),
    expected: sat.p,
    band: { from: Math.max(0, sat.p - COVERAGE * u), to: sat.p + COVERAGE * u },
    difference,
    u,
    contributions,
    leastDensity,
    leastMass: volume === undefined ? undefined : volume * leastDensity,
    lookAlikes: lookAlikes(metal.T, pressure.p, u).filter((id) => id !== fluid.info.id),
  };
}

/**
 * Pure fluids whose saturation pressure at T lies within the reading's interval, the expected one among them.
 *
 * @param T Temperature of the metal, K.
 * @param p Reading, Pa absolute.
 * @param u Standard uncertainty of reading against expectation, Pa; the one of the expected fluid serves all.
 * Cost: the first call builds every fluid (half a second); later ones take a fraction of a millisecond.
 */
export function lookAlikes(T: number, p: number, u: number): readonly FluidId[] {
  return fluidIds.filter((id) => {
    const sat = saturationAtT(fluidOf(id), T);
    return sat.kind === "saturated" && Math.abs(sat.p - p) <= COVERAGE * u;
  });
}
