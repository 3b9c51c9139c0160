/** From a leak of air into a vacuum to what the same hole would lose of a refrigerant under pressure. */

const R = 8.314462618;
/** Julian year. */
const YEAR = 365.25 * 86_400;
const MU_AIR = 1.82e-5;
const M_AIR = 0.0289652;
/** Vapour of common refrigerants near room temperature, Pa s: R134a 1.17e-5; others lie within a third. */
const MU_VAPOUR = 1.17e-5;

/** Throughput of gas, Pa m3/s, as kg/s: Q·M/(R·T). */
export const massFlowOf = (Q: number, M: number, T: number): number => (Q * M) / (R * T);

/** The same as kg in a year. */
export const yearlyMass = (Q: number, M: number, T: number): number => massFlowOf(Q, M, T) * YEAR;

/** Throughput of a yearly loss in kg, Pa m3/s. */
export const throughputOf = (perYear: number, M: number, T: number): number =>
  ((perYear / YEAR) * R * T) / M;

/** Times more throughput with vapour at p outward than with the local air inward, laminar. */
export const laminarScale = (p: number, air: number): number =>
  (p ** 2 - air ** 2) / MU_VAPOUR / (air ** 2 / MU_AIR);

/** The same through a hole that molecules pass one by one, and through an orifice that chokes. */
const molecularScale = (p: number, air: number, M: number): number =>
  ((p - air) / air) * Math.sqrt(M_AIR / M);
const chokedScale = (p: number, air: number, M: number): number => (p / air) * Math.sqrt(M_AIR / M);

export interface YearlyLoss {
  /** kg a year, laminar; lowest and highest of laminar, molecular and choked flow. */
  readonly laminar: number;
  readonly from: number;
  readonly to: number;
}

/**
 * What a leak found in a vacuum might lose in service. An order of magnitude: the path is unknown, and service
 * loads seals the other way, five to twenty times harder.
 *
 * @param Q   Throughput of air into the vacuum, Pa m3/s.
 * @param p   Pressure of the refrigerant in service, Pa absolute, above `air`.
 * @param M   Of the refrigerant, kg/mol.
 */
export function yearlyLoss(
  Q: number,
  {
    p,
    air,
    M,
    T,
  }: { readonly p: number; readonly air: number; readonly M: number; readonly T: number },
): YearlyLoss {
  const laminar = laminarScale(p, air);
  const all = [laminar, molecularScale(p, air, M), chokedScale(p, air, M)];
  const mass = (scale: number): number => yearlyMass(Q * scale, M, T);
  return { laminar: mass(laminar), from: mass(Math.min(...all)), to: mass(Math.max(...all)) };
}
