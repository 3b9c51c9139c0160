import type { FluidId } from "../../fluids/index.ts";
import type { Composition } from "./composition.ts";

/** Nodes in ln p, of enthalpy fraction in two phases, and of superheat. */
export const TWO_PHASE = 11;
export const SUPERHEAT = 20;
/** Nodes of the bubble line. */
export const LIQUID = 96;
/** Nodes of the critical mass flux: in ln p, and on each side of the bubble line. */
export const FLUX_P = 28;
export const FLUX_H = 14;

/** Table at equal steps of its argument. */
export interface EvenAxis {
  readonly from: number;
  readonly step: number;
  readonly count: number;
}

/** Largest homogeneous-equilibrium mass flux through a throat, and the pressure ratio there. */
export interface FluxTable {
  /** ln p of the inlet. */
  readonly lnP: EvenAxis;
  /** Subcooled with h = h_b − w²(h_b − h_cold), two-phase with chi = w². */
  readonly liquid: FluxSide;
  readonly wet: FluxSide;
  /** Enthalpy of the coldest liquid of the table, J/kg. */
  readonly hCold: number;
  /** Works out the nodes that an interpolation from this row and column reads, unless they are there. */
  readonly prepare: (side: FluxSide, row: number, column: number) => void;
}

/** One side of the bubble line: FLUX_P × FLUX_H nodes, not a number until they are first read. */
export interface FluxSide {
  /** ln(kg/(m² s)) */
  readonly lnG: Float64Array;
  readonly ratio: Float64Array;
  /** 1 where the sixteen nodes from here on are there. */
  readonly ready: Uint8Array;
}

/**
 * Properties of one fluid or blend as tables: no equation of state is asked afterwards. Basis: kg.
 *
 * b is the bubble point, d the dew point; chi = (h − h_b)/(h_d − h_b) is the coordinate of two
 * phases, which for a pure fluid is the quality. Rows are at equal steps of ln p.
 */
export interface Pack {
  readonly composition: Composition;
  /** Whether temperature varies along chi. */
  readonly glide: boolean;
  readonly M: number;
  readonly lnP: EvenAxis;
  readonly pMin: number;
  readonly pMax: number;
  /** Per row: T_b, T_d, h_b, h_d, s_b, s_d, rho_b, ln rho_d: 8 columns. */
  readonly ends: Float64Array;
  /** Rows × TWO_PHASE: temperature, entropy, mass quality, ln of the phase densities. */
  readonly T: Float64Array;
  readonly s: Float64Array;
  readonly quality: Float64Array;
  readonly lnRhoL: Float64Array;
  readonly lnRhoV: Float64Array;
  /** Rows × SUPERHEAT at h = h_d + dhMax·xi²: T, s, ln(v·p). */
  readonly dhMax: number;
  readonly vT: Float64Array;
  readonly vS: Float64Array;
  readonly vLnPv: Float64Array;
  /** Bubble line against h: T, s, rho, ln p; and h against T; T_d's ln p against T. */
  readonly liquidH: EvenAxis;
  readonly lT: Float64Array;
  readonly lS: Float64Array;
  readonly lRho: Float64Array;
  readonly lLnP: Float64Array;
  readonly liquidT: EvenAxis;
  readonly lH: Float64Array;
  readonly dewT: EvenAxis;
  readonly dewLnP: Float64Array;
  readonly flux: FluxTable;
  /** Highest temperature at which all equations are fitted, K. */
  readonly Tmax: number;
  readonly sources: readonly string[];
  /** Pairs whose mixing parameters are estimates, as text. */
  readonly estimates: readonly string[];
}

/** Why a fluid or blend has no pack: its two-phase states could not be followed. */
export interface NoPack {
  readonly kind: "no-pack";
  readonly reason: "narrow-range" | "not-converged" | "no-two-phases";
  /** Pressure at which it failed, Pa. */
  readonly p: number;
}

export type PackOutcome = { readonly kind: "pack"; readonly pack: Pack } | NoPack;

/** One row of the source of a pack, per kg. */
export interface SourceRow {
  readonly T: Float64Array;
  readonly s: Float64Array;
  readonly h: Float64Array;
  readonly quality: Float64Array;
  readonly rhoL: Float64Array;
  readonly rhoV: Float64Array;
  readonly vT: Float64Array;
  readonly vS: Float64Array;
  readonly vRho: Float64Array;
}

/** What a pack is made from: one row at a pressure, or undefined where there are no two phases. */
export interface PackSource {
  readonly glide: boolean;
  readonly M: number;
  readonly Tmin: number;
  readonly Tmax: number;
  /** Bound of the pressures, Pa. */
  readonly pMin: number;
  readonly pMax: number;
  readonly ids: readonly FluidId[];
  readonly sources: readonly string[];
  readonly estimates: readonly string[];
  /** Heat capacity of the dew vapour at 300 kPa, J/(kg K). */
  readonly cpDew: number;
  row(p: number, dh: Float64Array): SourceRow | undefined;
}
