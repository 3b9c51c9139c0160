import { cubicBasis, evaluateCubic } from "../../inference/index.ts";
import { type Boiling, R } from "./surface.ts";

/** Caller's scratch of {@link settle}. */
export interface BoilingWork {
  readonly basis: Float64Array;
  /** Of each part at the composition last asked for, Pa. */
  readonly h: Float64Array;
  /** Mole fractions of the liquid. */
  readonly liquid: Float64Array;
  /** Of the whole, by its h, Pa; `reference` is the bubble pressure at which the vapour has compressibility Z. */
  bubble: number;
  dew: number;
  reference: number;
  Z: number;
}

export const createBoilingWork = (): BoilingWork => ({
  basis: new Float64Array(64),
  h: new Float64Array(8),
  liquid: new Float64Array(8),
  bubble: 0,
  dew: 0,
  reference: 0,
  Z: 1,
});

/** How a vessel is filled: by the share of its volume that is liquid, or by its contents, mol/m³. */
export type Fill =
  | { readonly kind: "share"; readonly share: number }
  | { readonly kind: "density"; readonly rho: number };

/** A vessel at rest. */
export interface AtRest {
  /** Pa. */
  p: number;
  /** Share of the volume that is liquid; above 1 where the vessel is too small for it. */
  liquidShare: number;
  /** Density of the liquid, mol/m³. */
  rhoL: number;
}

/** Steps of the bracketed search for the pressure; six are usual. */
const ITERATIONS = 60;
/** Of the pressure. */
const CLOSE = 1e-6;
/** Pa: parts that add more than this per mole fraction are gases in the liquid, and say nothing of its vapour. */
const GAS_ABOVE = 2e7;

/**
 * Pressure of a vessel at rest: parts divide between liquid and vapour by their h, taken at the composition of the
 * whole and then once more at that of the liquid.
 *
 * @param z    Mole fractions of the whole.
 * @param into Receives the answer.
 * Limits: checked against the exact flash in surface.test.ts.
 */
export function settle(
  boiling: Boiling,
  z: Float64Array,
  fill: Fill,
  work: BoilingWork,
  into: AtRest,
): void {
  work.liquid.set(z);
  evaluate(boiling, z, work, into);
  balance(boiling, z, fill, work, into);
  if (boiling.terms === 1 || into.liquidShare <= 0) return;
  evaluate(boiling, z, work, into);
  balance(boiling, z, fill, work, into);
}

/** Properties at the liquid's composition. */
function evaluate(
  { parts, terms, coefficients }: Boiling,
  z: Float64Array,
  work: BoilingWork,
  into: AtRest,
): void {
  const { basis, h, liquid } = work;
  if (terms === 1) basis[0] = 1;
  else cubicBasis(liquid, parts, basis);
  work.reference = 0;
  work.bubble = 0;
  work.dew = 0;
  for (let i = 0; i < parts; i++) {
    const value = Math.exp(evaluateCubic(coefficients, i * terms, basis, terms));
    h[i] = value;
    const zi = z[i] ?? 0;
    work.bubble += zi * value;
    work.dew += zi / value;
    if (value < GAS_ABOVE) work.reference += (liquid[i] ?? 0) * value;
  }
  work.dew = 1 / work.dew;
  into.rhoL = Math.exp(-evaluateCubic(coefficients, parts * terms, basis, terms));
  work.Z = Math.exp(evaluateCubic(coefficients, (parts + 1) * terms, basis, terms));
}

const vapourDensity = (T: number, p: number, { Z, reference }: BoilingWork): number =>
  p / ((1 - (1 - Z) * Math.min(1, p / reference)) * R * T);

/** Finds the pressure between dew and bubble at which liquid and vapour fill the vessel. */
function balance(
  boiling: Boiling,
  z: Float64Array,
  fill: Fill,
  work: BoilingWork,
  into: AtRest,
): void {
  let [low, high] = [work.dew, work.bubble];
  if (fill.kind === "density" && fill.rho <= vapourDensity(boiling.T, low, work)) {
    into.liquidShare = 0;
    into.p = vapourOnly(boiling.T, fill.rho, work);
    return;
  }
  let atLow = excess(boiling, z, fill, work, low, into);
  let atHigh = excess(boiling, z, fill, work, high, into);
  let p = high;
  for (let k = 0; k < ITERATIONS && high - low > CLOSE * high; k++) {
    p =
      atLow > 0 && atHigh < 0 ? (low * atHigh - high * atLow) / (atHigh - atLow) : (low + high) / 2;
    const here = excess(boiling, z, fill, work, p, into);
    if (Math.abs(here) < CLOSE * p) break;
    // The Illinois rule: halve the side that stays, so that both ends close in.
    if (here > 0) {
      low = p;
      atLow = here;
      atHigh /= 2;
    } else {
      high = p;
      atHigh = here;
      atLow /= 2;
    }
  }
  into.p = p;
}

/** Pressure that the liquid left beside vapour of pressure p would have, less p; keeps liquid and its share. */
function excess(
  { parts, T }: Boiling,
  z: Float64Array,
  fill: Fill,
  work: BoilingWork,
  p: number,
  into: AtRest,
): number {
  const rhoV = vapourDensity(T, p, work);
  into.liquidShare = fill.kind === "share" ? fill.share : (fill.rho - rhoV) / (into.rhoL - rhoV);
  const share = Math.min(1, Math.max(0, into.liquidShare));
  const vapour = (1 - share) * rhoV;
  const beta = vapour / (vapour + share * into.rhoL);
  let pressure = 0;
  let sum = 0;
  for (let i = 0; i < parts; i++) {
    const hi = work.h[i] ?? 0;
    const x = (z[i] ?? 0) / (1 + beta * (hi / p - 1));
    work.liquid[i] = x;
    sum += x;
    pressure += x * hi;
  }
  for (let i = 0; i < parts; i++) work.liquid[i] = (work.liquid[i] ?? 0) / sum;
  return pressure / sum - p;
}

/** Nothing is liquid: p/(ρRT) = 1 − (1 − Z)·p/p₀, solved for p. */
function vapourOnly(T: number, rho: number, { Z, reference }: BoilingWork): number {
  const ideal = rho * R * T;
  return ideal / (1 + ((1 - Z) * ideal) / reference);
}
