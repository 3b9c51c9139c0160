import { type BulkOutcome } from "./bulk.ts";
import { type Material, materialOf } from "./material.ts";

/**
 * Relative standard uncertainty of a pressure that a blend's equations give: all pairs fitted to measurements, or at
 * least one estimated. Common practice, no source: publications of fitted pairs state 0.1 to 1 % of the pressure,
 * and combining rules are off by several per cent for unlike fluids.
 */
const FITTED = 0.01;
const ESTIMATED = 0.05;
/** Pure equations: one figure for all fluids, as for static pressures. Common practice, no source. */
const PURE = 0.001;
/** Relative change of pressure per relative change of temperature along saturation, by Trouton's rule. */
const TROUTON = 10;

/**
 * Standard uncertainty of a pressure computed for a material, Pa, from its equations alone.
 *
 * Where pairs are estimated, the other combining rule is tried as well, and the difference counts as the half-width
 * of a rectangular distribution.
 *
 * @param answer The pressure as computed for `material`.
 * @param again  The same computation for another material.
 */
export function pressureDoubt(
  material: Material,
  answer: number,
  again: (other: Material) => BulkOutcome,
): number {
  if (material.kind === "pure") return PURE * answer;
  if (material.mix.estimates.length === 0) return FITTED * answer;
  const other = again(materialOf(material.moles, "quadratic"));
  const difference = other.kind === "bulk" ? other.p - answer : 0;
  return Math.hypot(ESTIMATED * answer, difference / Math.sqrt(3));
}

/** The same of a saturation temperature, K, from the relative uncertainty of the pressure. */
export const temperatureDoubt = (material: Material, T: number): number => {
  if (material.kind === "pure") return (PURE / TROUTON) * T;
  return ((material.mix.estimates.length === 0 ? FITTED : ESTIMATED) / TROUTON) * T;
};
