/** Flow of thin gas through hoses: viscous, molecular and what lies between. */

/** One hose: bore and length, m. */
export interface Hose {
  readonly bore: number;
  readonly length: number;
}

const R = 8.314462618;
/** kg/mol; NIST composition of dry air. */
const M_AIR = 0.0289652;
/** Of air at 20 °C, Pa s; with temperature it goes as T^0.7 near there (from memory). */
const MU_AIR = 1.82e-5;

export const airViscosity = (T: number): number => MU_AIR * (T / 293.15) ** 0.7;

/**
 * Conductance in viscous flow, m3/s.
 *
 * @param pMean Mean of the pressures at both ends, Pa.
 * Source: Poiseuille's law, π·d⁴·p/(128·μ·L).
 */
export const viscousConductance = ({ bore, length }: Hose, pMean: number, T: number): number =>
  (Math.PI * bore ** 4 * pMean) / (128 * airViscosity(T) * length);

/** Conductance in molecular flow, m3/s. Source: Knudsen's long tube, π·d³/(12·L)·√(8RT/(πM)). */
export const molecularConductance = ({ bore, length }: Hose, T: number): number =>
  ((Math.PI * bore ** 3) / (12 * length)) * Math.sqrt((8 * R * T) / (Math.PI * M_AIR));

/** Mean free path of air, m: μ/p·√(πRT/(2M)). */
const freePath = (p: number, T: number): number =>
  (airViscosity(T) / p) * Math.sqrt((Math.PI * R * T) / (2 * M_AIR));

/**
 * Conductance at any pressure, m3/s: viscous flow plus a share of molecular flow that falls from 1 to 0.81.
 *
 * @param pMean Mean of the pressures at both ends, Pa, above 0.
 * Source: Knudsen 1909 (coefficients from memory).
 */
export function conductance(hose: Hose, pMean: number, T: number): number {
  const y = hose.bore / (2 * freePath(pMean, T));
  const share = (1 + 2.507 * y) / (1 + 3.095 * y);
  return viscousConductance(hose, pMean, T) + share * molecularConductance(hose, T);
}
