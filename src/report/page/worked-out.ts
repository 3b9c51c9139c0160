import {
  contentsOf,
  type FairComparison,
  fairComparisonOf,
  type RestingFindings,
  restingFindings,
  type TrialView,
} from "../../trial/index.ts";
import { type IdentifyResult, weighContents } from "../weigh-contents.ts";

/** Everything of a trial that takes its time: worked out once for a view. */
export interface Worked extends RestingFindings {
  readonly fair: FairComparison;
  readonly identified: ReadonlyMap<string, IdentifyResult>;
}

const memory = new WeakMap<TrialView, Worked>();

/** The comparison, the identifications and what rests on both; the same object for the same view. */
export function workedOut(view: TrialView): Worked {
  const before = memory.get(view);
  if (before) return before;
  const fair = fairComparisonOf(view);
  const identified = new Map(
    view.products.flatMap(({ id }) => {
      const result = weighContents(contentsOf(view, id));
      return result ? [[id, result] as const] : [];
    }),
  );
  const worked = { fair, identified, ...restingFindings(view, { fair, identified }) };
  memory.set(view, worked);
  return worked;
}
