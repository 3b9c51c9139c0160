import { rectangular } from "../accuracy.ts";
import { chargingNumber } from "./charging-facts.ts";

/** kg: how far a charge may be off, what a scale must be good for, and where to stop. */
export interface MassTolerance {
  /** The rule's ± 15 g, or its share of 500 g where the target is smaller. */
  readonly tolerance: number;
  /** Limit of error of a scale that settles it. */
  readonly scaleLimit: number;
  readonly from: number;
  readonly to: number;
}

/**
 * How exactly a target is to be met: 15 g as for R134a, and in proportion below 500 g, so that a light product is not
 * judged by a tolerance made for a heavy one.
 *
 * @param target kg.
 * Source: 40 CFR 82 subpart B, appendix C 9.1 (15 g; 500 g means 485 to 515 g); the proportion is a choice, no source
 */
export function massTolerance(target: number): MassTolerance {
  const full = chargingNumber("massTolerance").value;
  const tolerance = full * Math.min(1, target / chargingNumber("toleranceCharge").value);
  return {
    tolerance,
    scaleLimit: chargingNumber("scaleShare").value * tolerance,
    from: target - tolerance,
    to: target + tolerance,
  };
}

/**
 * Whether a scale of some limit of error settles a target.
 *
 * @param limit Its limit of error, kg. A mass in is the difference of two readings.
 */
export function scaleSettles(limit: number, target: number): { fine: boolean; u: number } {
  const u = Math.SQRT2 * rectangular(limit);
  return { fine: limit <= massTolerance(target).scaleLimit, u };
}
