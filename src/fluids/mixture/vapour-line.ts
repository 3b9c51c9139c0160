import type { Mixture } from "./mixture.ts";
import { createMixtureWork, type MixtureWork } from "./mixture-work.ts";
import { evaluateCaloric, evaluateIdealParts } from "./phase-caloric.ts";
import { solveOnePhase } from "./one-phase-newton.ts";

/** A vapour along an isobar. K, mol/m³, J/mol, J/(mol K). */
export interface VapourPoint {
  readonly T: number;
  readonly rho: number;
  readonly h: number;
  readonly s: number;
}

/**
 * Homogeneous vapour of one composition at one pressure and several enthalpies, each found from its
 * neighbour.
 *
 * @param z     Mole fractions, sum 1.
 * @param p     Pressure, Pa.
 * @param T     Temperature to start from, K: that of the dew point for the first enthalpy.
 * @param h     Enthalpies, J/mol, ascending from the dew point's.
 * @returns     Points up to the first that was not found: their number may be less than asked.
 *
 * Cost: three or four evaluations a point; phase stability is the caller's knowledge.
 */
export function vapourLine(
  mix: Mixture,
  z: ArrayLike<number>,
  { p, T, h }: { readonly p: number; readonly T: number; readonly h: readonly number[] },
  work: MixtureWork = createMixtureWork(mix),
): readonly VapourPoint[] {
  const points: VapourPoint[] = [];
  const phase = work.feed;
  work.T = T;
  let [hLast, cp] = [h[0], 0];
  for (const value of h) {
    if (cp > 0) work.T += (value - hLast) / cp;
    if (!solveOnePhase(mix, z, { p, quantity: "h", value }, "vapour", work)) break;
    evaluateIdealParts(mix, phase, work.T);
    evaluateCaloric(mix, phase);
    cp = phase.cp;
    hLast = value;
    points.push({ T: work.T, rho: phase.rho, h: phase.h, s: phase.s });
  }
  return points;
}
