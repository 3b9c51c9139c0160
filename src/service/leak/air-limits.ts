import { fluidInfo } from "../../fluids/index.ts";
import { molarMass, type Part } from "../substances/composition.ts";
import { intervalOf, usable } from "../substances/fact.ts";
import { type Flammability, flammabilityOf } from "../substances/flammability.ts";
import { massPerVolume } from "../substances/le-chatelier.ts";
import { substanceFacts } from "../substances/substance-facts.ts";

/** J/(mol K), exact since 2019. */
const R = 8.314462618;
/** Air in which tables state their limits. */
const TABLE_T = 298.15;
const TABLE_P = 101325;
/** Relative fall of a lower flammability limit by volume per kelvin above 25 °C: Burgess and Wheeler, from memory. */
const FALL_PER_KELVIN = 0.0008;
/** Largest fraction of the air that may be displaced: ASHRAE 34 clause 7, oxygen deprivation limit. */
export const OXYGEN_DEPRIVATION = 0.14;
/** Oxygen in dry air, by volume. */
const OXYGEN = 0.2095;

/** The air of a space. */
export interface AirState {
  /** K */
  readonly T: number;
  /** Pa */
  readonly p: number;
}

/** Fraction by volume of a vapour at kg/m3; ideal gas; never above 1. M in kg/mol. */
export const fractionOf = (concentration: number, M: number, { T, p }: AirState): number =>
  Math.min(1, (concentration * R * T) / (M * p));

/** kg/m3 of the pure vapour: no air can hold more. */
export const pureVapour = (M: number, { T, p }: AirState): number => (M * p) / (R * T);

/** Oxygen that is left in the air, by volume. */
export const oxygenLeft = (fraction: number): number => OXYGEN * (1 - fraction);

/** A table's limit in kg/m3 as it stands in this air: thinner or hotter air reaches it with less mass. */
export const limitInAir = (perVolume: number, { T, p }: AirState): number =>
  perVolume * (p / TABLE_P) * (TABLE_T / T) * (1 - FALL_PER_KELVIN * Math.max(0, T - TABLE_T));

/**
 * The lower flammability limit to warn with, kg/m3 at 25 °C and 101.325 kPa; `undefined` where none is known.
 *
 * A vapour that leaks from a blend is richer in its light parts. By mass a blend's limit is a harmonic mean of its
 * parts' limits, so the lowest of theirs bounds it whatever leaves first; a table's
 * two columns are rounded, so both are looked at.
 */
export function warningLimit(
  rated: Flammability,
  moles: readonly Part[],
  phase: "as-charged" | "vapour",
): number | undefined {
  if (rated.kind !== "limits") return undefined;
  const own = rated.limits.lowest.mass;
  if (phase === "as-charged" || rated.rule !== "le-chatelier") return own;
  const parts = moles.flatMap(({ fluid }) => {
    const alone = flammabilityOf([{ fluid, fraction: 1 }]);
    if (alone.kind !== "limits") return [];
    const { mass, volume } = alone.limits.lowest;
    return [mass, massPerVolume(volume, fluidInfo(fluid).M)];
  });
  return Math.min(own, ...parts);
}

/** A limit for people's lungs, fraction by volume; `undefined` where a part has none that may be used. */
export interface BreathingLimits {
  /** Acute-toxicity exposure limit. */
  readonly atel: number | undefined;
  /** Refrigerant concentration limit of occupied rooms. */
  readonly rcl: number | undefined;
  readonly sources: readonly string[];
}

const PPM = 1e-6;

/**
 * ATEL and RCL of a fluid as listed; of a mixture by the standard's rule: 1/ATEL = Σ x/ATEL over mole fractions, and
 * RCL the smallest of ATEL, the oxygen deprivation limit and a quarter of the flammability limit.
 *
 * @param lfl Fraction by volume, of what burns; `undefined` for what does not or is not known.
 *
 * Source: ASHRAE 34 clause 7, from memory
 */
export function breathingLimits(moles: readonly Part[], lfl: number | undefined): BreathingLimits {
  const facts = moles
    .filter(({ fraction }) => fraction > 0)
    .map(({ fluid, fraction }) => ({ fraction, ...substanceFacts(fluid) }));
  const [first] = facts;
  const each = facts.map(({ atel, fraction }) => ({ fact: usable(atel), fraction }));
  const known = each.every(({ fact }) => fact !== undefined);
  const inverse = each.reduce(
    (sum, { fact, fraction }) => sum + (fact ? fraction / (intervalOf(fact.value).from * PPM) : 0),
    0,
  );
  const atel = known ? 1 / inverse : undefined;
  const listed = facts.length === 1 ? usable(first?.rcl?.volume) : undefined;
  const computed =
    facts.length > 1 && atel !== undefined
      ? Math.min(atel, OXYGEN_DEPRIVATION, lfl === undefined ? 1 : lfl / 4)
      : undefined;
  return {
    atel,
    rcl: listed ? intervalOf(listed.value).from * PPM : computed,
    sources: [...each.map(({ fact }) => fact), listed].flatMap((fact) =>
      fact ? [fact.source] : [],
    ),
  };
}

/** Whether a part gives hydrogen fluoride or chloride in a flame or on glowing metal. */
export const poisonsInFlame = (moles: readonly Part[]): boolean =>
  moles.some(({ fluid, fraction }) => {
    const { family } = substanceFacts(fluid);
    return fraction > 0 && !["hydrocarbon", "ether", "inorganic"].includes(family);
  });

/** Vapour of the whole over air, by molar mass: above 1 it sinks. */
export const overAir = (moles: readonly Part[]): number => molarMass(moles) / AIR_M;
/** Dry air, kg/mol. */
const AIR_M = 0.0289647;
