import { normalisedWeights } from "../../inference/index.ts";
import type { Evidence } from "./evidence.ts";
import { families } from "./families.ts";
import { type Posterior, priorsOf } from "./posterior.ts";

/** What leads when nobody believes the label. */
export interface WithoutLabel {
  readonly family: string;
  readonly title: string;
  readonly probability: number;
}

/** A name needs this much without its label: more than all else together (a choice, no source). */
const BORNE_OUT = 0.5;

/**
 * The answer without what a label declares; undefined where no label was weighed. A label moves the prior only, so
 * the families' evidence stays and nothing is sampled anew.
 */
export function withoutLabel(
  evidence: readonly Evidence[],
  posterior: Posterior,
  prior?: Readonly<Record<string, number>>,
): WithoutLabel | undefined {
  const others = evidence.filter(({ kind }) => kind !== "label");
  if (others.length === evidence.length) return undefined;
  const priors = priorsOf(others, prior);
  const before = new Map(families.map(({ id }, k) => [id, priors[k] ?? 0]));
  const weights = normalisedWeights(
    posterior.families.map(
      ({ family, logEvidence }) => Math.log(before.get(family.id) ?? 0) + logEvidence,
    ),
  );
  const at = weights.reduce((best, each, k) => (each > (weights[best] ?? 0) ? k : best), 0);
  const leader = posterior.families[at]?.family;
  return leader && { family: leader.id, title: leader.title, probability: weights[at] ?? 0 };
}

/** A label gives no name: whoever leads with it has to lead without it, against all others. */
export const borneOut = (family: string, without: WithoutLabel | undefined): boolean =>
  !without || (without.family === family && without.probability >= BORNE_OUT);
