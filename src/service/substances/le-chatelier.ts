import { fluidInfo } from "../../fluids/index.ts";
import { molarMass, type Part } from "./composition.ts";
import { upperOf } from "./fact.ts";
import type { Concentration } from "./substance-facts.ts";

/** Molar volume of an ideal gas at 25 °C and 101.325 kPa, m3/mol; ASHRAE 34 converts its limits with it. */
const MOLAR_VOLUME = 0.024465;

/** A lower flammability limit in air at 25 °C and 101.325 kPa. */
export interface FlammabilityLimit {
  /** Fraction by volume. */
  readonly volume: number;
  /** kg/m3. */
  readonly mass: number;
}

/** kg of vapour per m3 of air and vapour, from a fraction by volume; M in kg/mol. */
export const massPerVolume = (volume: number, M: number): number => (volume * M) / MOLAR_VOLUME;

/** Fraction by volume from kg/m3. */
const volumeFraction = (mass: number, M: number): number => (mass * MOLAR_VOLUME) / M;

const PPM = 1e-6;

/** A limit from a table that gives it by mass and perhaps by volume. */
export function listedLimit({ volume, mass }: Concentration, M: number): FlammabilityLimit {
  const perMass = upperOf(mass.value);
  const byVolume = volume ? upperOf(volume.value) * PPM : volumeFraction(perMass, M);
  return { volume: byVolume, mass: perMass };
}

/**
 * Lower flammability limit of similar fuels, Le Chatelier's rule: 1/L = Σ x_i/L_i over mole fractions.
 *
 * @param moles  Mole fractions of the fuels, sum 1.
 * @param limit  Limit of each as a fraction by volume, in the same order.
 *
 * Limits: lower limits of similar fuels only; not upper limits, not with parts that do not burn.
 * Source: Le Chatelier, Ann. Mines 19 (1891) 388; from memory of the textbooks
 * Checked: flammability.test.ts
 */
export function leChatelier(
  moles: readonly Part[],
  limit: (part: Part) => number,
): FlammabilityLimit {
  const volume = 1 / moles.reduce((sum, part) => sum + part.fraction / limit(part), 0);
  return { volume, mass: massPerVolume(volume, molarMass(moles)) };
}

/** Molar mass of a pure part, kg/mol. */
export const molarMassOf = ({ fluid }: Part): number => fluidInfo(fluid).M;
