import { bulkAtTP } from "../bulk/bulk.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";
import { combined, type Contribution, COVERAGE } from "../accuracy.ts";
import { dewVapour } from "./liquid-density.ts";
import { recoveryNumber } from "./recovery-facts.ts";

/** J/(mol K), CODATA 2018. */
const GAS_CONSTANT = 8.314462618;

/** A closed system at the end of recovery, each with its standard uncertainty: m3, K, Pa absolute. */
export interface ResidualQuestion {
  readonly material: Material;
  readonly volume: { readonly value: number; readonly u: number };
  readonly T: { readonly value: number; readonly u: number };
  readonly p: { readonly value: number; readonly u: number };
}

/** Vapour alone: its mass, kg, with standard uncertainty and what that is made of. */
export interface ResidualVapour {
  readonly kind: "vapour";
  readonly mass: number;
  readonly u: number;
  readonly contributions: readonly Contribution[];
}

/** At or above the dew pressure: liquid may lie inside, so there is no upper end. */
export interface LiquidPossible {
  readonly kind: "liquid-possible";
  /** kg: vapour alone. */
  readonly leastMass: number;
  /** Pa absolute. */
  readonly dew: number;
}

/**
 * Refrigerant that is still in a system as vapour at the pressure reached.
 *
 * @returns the mass, or that liquid is possible. A pressure of zero holds nothing.
 * @throws RangeError for numbers that are not finite: the caller's bug.
 *
 * Limits: one temperature throughout, no air; what is dissolved in the oil comes out later and is not in it.
 * Source: m = V ρ(T, p), the fluid's own equation
 * Checked: residual.test.ts, test/published/cylinders.test.ts
 */
export function residualVapour(
  question: ResidualQuestion,
): ResidualVapour | LiquidPossible | BulkFailure {
  const { material, volume, T, p } = question;
  const dew = dewVapour(material, T.value);
  if (dew.kind === "boiling" && p.value >= dew.p) {
    return { kind: "liquid-possible", leastMass: volume.value * dew.rho, dew: dew.p };
  }
  if (p.value <= 0) {
    // A gauge that reads deeper than the air allows: nothing is left as far as it can tell.
    const u = (volume.value * material.M * p.u) / (GAS_CONSTANT * T.value);
    return { kind: "vapour", mass: 0, u, contributions: [{ name: "pressure", u }] };
  }
  const vapour = bulkAtTP(material, T.value, p.value);
  if (vapour.kind === "failed") return vapour;
  const mass = volume.value * vapour.rho;
  // A gas well below saturation: ρ ∝ p/T is near enough for the share of each.
  const contributions = [
    { name: "pressure", u: (mass * p.u) / p.value },
    { name: "temperature", u: (mass * T.u) / T.value },
    { name: "volume", u: (mass * volume.u) / volume.value },
  ];
  return { kind: "vapour", mass, u: combined(contributions), contributions };
}

export type Reached = "reached" | "not-reached" | "cannot-tell";

/** Is a quantity at or beyond what is required, by more than twice its standard uncertainty either way? */
const against = (beyond: number, u: number): Reached => {
  if (beyond >= COVERAGE * u) return "reached";
  return beyond < -COVERAGE * u ? "not-reached" : "cannot-tell";
};

/** The pressure that recovery has to reach, Pa absolute: 102 mmHg below the air of the place. */
export const requiredPressure = (air: number): number =>
  air - recoveryNumber("vacuumBelowAir").value;

/**
 * Whether a pressure is 102 mmHg below the air.
 *
 * @param p   Pa absolute, with the uncertainty of reading and air together.
 * @param air Pa.
 */
export const vacuumReached = (
  p: { readonly value: number; readonly u: number },
  air: number,
): Reached => against(requiredPressure(air) - p.value, p.u);

/** What came out against what was in: kg, with standard uncertainties. */
export interface RecoveredShare {
  /** Recovered over charged; undefined when nothing was in. */
  readonly share: number;
  readonly u: number;
  /** kg that did not come out; below zero more came out than was thought to be in. */
  readonly remaining: number;
  readonly uRemaining: number;
  /** kg that may stay. */
  readonly allowed: number;
  readonly required: number;
  readonly verdict: Reached;
}

/**
 * Share of the charge that was recovered, against the 95 % of the rule.
 *
 * @param charged   kg in the system before, less what is thought to have leaked since.
 * @param recovered kg in the vessel, degassed: gas in recovered oil makes it look more.
 * @throws RangeError for a charge that is not above zero: the caller's bug.
 * Source: 40 CFR 82 subpart B, appendix C 7.1.1
 */
export function recoveredShare(
  charged: { readonly value: number; readonly u: number },
  recovered: { readonly value: number; readonly u: number },
): RecoveredShare {
  if (!(charged.value > 0)) throw new RangeError(`charged ${charged.value}`);
  const required = recoveryNumber("recoveredShare").value;
  const share = recovered.value / charged.value;
  const u = Math.hypot(recovered.u, share * charged.u) / charged.value;
  return {
    share,
    u,
    remaining: charged.value - recovered.value,
    uRemaining: Math.hypot(charged.u, recovered.u),
    allowed: (1 - required) * charged.value,
    required,
    verdict: against(roundedOff(share - required), u),
  };
}

/** A difference of two rounded shares: the last bits of a double are no shortfall. */
const roundedOff = (difference: number): number => Math.round(difference * 1e12) / 1e12;
