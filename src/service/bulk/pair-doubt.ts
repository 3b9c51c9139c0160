import type { FluidId } from "../../fluids/index.ts";
import { substanceFacts } from "../substances/substance-facts.ts";
import type { BulkOutcome } from "./bulk.ts";
import { type Material, materialOf } from "./material.ts";

/**
 * Relative standard uncertainty of a pressure that a blend's equations give: all pairs fitted to measurements, or at
 * least one estimated. Common practice, no source: publications of fitted pairs state 0.1 to 1 % of the pressure,
 * and combining rules are off by several per cent for unlike fluids.
 */
const FITTED = 0.01;
const ESTIMATED = 0.05;
/**
 * A hydrocarbon with a halogenated fluid: where a fit exists, both combining rules miss its pressure by 30 to 35 % and
 * agree with each other in the error, so their spread says nothing (docs/models/mixtures.md, table of estimates).
 */
const UNLIKE = 0.3;
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
  return Math.hypot(relativeDoubt(material) * answer, difference / Math.sqrt(3));
}

/** Relative standard uncertainty of a blend's pressure by the worst of its pairs. */
function relativeDoubt({ mix }: Extract<Material, { kind: "blend" }>): number {
  if (mix.estimates.length === 0) return FITTED;
  return mix.estimates.some(({ pair }) => isUnlike(pair)) ? UNLIKE : ESTIMATED;
}

function isUnlike(pair: readonly [FluidId, FluidId]): boolean {
  const [a, b] = pair.map((id) => substanceFacts(id).family);
  const halogenated = (family: typeof a) => family !== "hydrocarbon" && family !== "inorganic";
  return (a === "hydrocarbon" && halogenated(b)) || (b === "hydrocarbon" && halogenated(a));
}

/** The same of a saturation temperature, K, from the relative uncertainty of the pressure. */
export const temperatureDoubt = (material: Material, T: number): number => {
  if (material.kind === "pure") return (PURE / TROUTON) * T;
  return (relativeDoubt(material) / TROUTON) * T;
};
