import { z } from "zod";
import type { PairEstimate } from "../fluids/index.ts";
import type { BulkFailure, Material, Part } from "../service/index.ts";
import type { NoAnswer, NoAnswerReason } from "./answer.ts";

/** A composition as it is shown: each fluid by mass and by mole. */
export const compositionSchema = z.array(
  z.strictObject({
    fluid: z.string(),
    mass: z.number().describe("Mass fraction"),
    mole: z.number().describe("Mole fraction"),
  }),
);

export const compositionView = (
  mass: readonly Part[],
  moles: readonly Part[],
): z.infer<typeof compositionSchema> =>
  mass.map(({ fluid, fraction }, i) => ({
    fluid,
    mass: fraction,
    mole: moles[i]?.fraction ?? 0,
  }));

const RULES: Readonly<Record<PairEstimate["rule"], string>> = {
  linear:
    "no published parameters; estimated by the linear rule (reducing temperature and volume linear in composition)",
  quadratic: "no published parameters; estimated by quadratic rules (all parameters 1)",
  "published-unfitted":
    "parameters printed by the authors of the model but not fitted to measurements of this pair",
};

/** Stands among the assumptions of every answer that rests on estimated pairs. */
const ESTIMATE =
  "This is an estimate: not every pair of its fluids has parameters fitted to measurements. Pressures carry 5 % (one standard uncertainty; common practice, no source), and more where two rules of estimating differ.";

/** The sentence that marks an answer as an estimate; undefined for one whose pairs are all fitted. */
export const estimateIn = (assumptions: readonly string[]): string | undefined =>
  assumptions.find((sentence) => sentence === ESTIMATE);

/** Which pairs of a blend are estimates, by which rule; nothing where all are fitted. */
export function estimateSentences(material: Material): readonly string[] {
  if (material.kind === "pure" || material.mix.estimates.length === 0) return [];
  const pairs = material.mix.estimates.map(
    ({ pair, rule }) => `${pair.join("–")}: ${RULES[rule]}.`,
  );
  return [ESTIMATE, ...pairs];
}

/** Sources of the pairs' parameters, in full. */
export const pairSources = (material: Material): readonly string[] =>
  material.kind === "pure" ? [] : material.mix.sources.map((source) => `pairs: ${source}`);

const REASONS: Readonly<Record<BulkFailure["reason"], NoAnswerReason>> = {
  "out-of-range": "outside-equation",
  supercritical: "above-critical",
  "below-minimum": "below-minimum",
  "no-solution": "no-solution",
  "not-converged": "not-converged",
};

const MESSAGES: Readonly<Record<BulkFailure["reason"], string>> = {
  "out-of-range": "outside the limits of the equations",
  supercritical: "above the critical point, where liquid and vapour do not coexist",
  "below-minimum": "below the coldest saturation state of the equation",
  "no-solution":
    "where this composition has no such point: beyond lies a fluid above its critical point, or a gas that does not condense keeps the line open",
  "not-converged": "part of a pair for which no state was found within the limits of the equations",
};

/** Why a fluid or blend has no such state. */
export const noBulk = (name: string, failure: BulkFailure): NoAnswer => ({
  kind: "no-answer",
  reason: REASONS[failure.reason],
  message: `${name}: ${failure.quantity} is ${MESSAGES[failure.reason]}.`,
  numbers: failure.numbers,
});
