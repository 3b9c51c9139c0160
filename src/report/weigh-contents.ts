import { compute, identifyInput, type IdentifyResult } from "../calculations/index.ts";
import type { ContentsEvidence } from "../trial/index.ts";

export type { IdentifyResult } from "../calculations/index.ts";

/** Answers of evidence met before: a report is rendered again whenever the log grows. */
const known = new Map<string, IdentifyResult>();
const KEPT = 40;

/** A label alone is no reading: nothing was measured, so nothing is weighed. */
export const isMeasured = ({ items }: ContentsEvidence): boolean =>
  items.some(({ evidence }) => evidence.kind !== "label");

/** What evidence says a content is; undefined where nothing was measured or a reading lies outside of what can be weighed. */
export function weighContents(evidence: ContentsEvidence): IdentifyResult | undefined {
  const input = isMeasured(evidence) ? identifyInput(evidence) : undefined;
  if (!input) return undefined;
  const key = JSON.stringify(input);
  const before = known.get(key);
  if (before) return before;
  const answer = compute("identify", input);
  if (answer.kind !== "answer") return undefined;
  // The calculation's own schema is tested to be what its result is.
  const result = answer.result as IdentifyResult;
  const [oldest] = known.keys();
  if (known.size >= KEPT && oldest !== undefined) known.delete(oldest);
  known.set(key, result);
  return result;
}
