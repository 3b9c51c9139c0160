import type { Evidence } from "../../evidence/index.ts";

/** One piece of evidence about a product, and the entries that it was made of. */
export interface GatheredEvidence {
  readonly evidence: Evidence;
  readonly entries: readonly string[];
}
