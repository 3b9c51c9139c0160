import type { ComparedQuantity } from "./comparable.ts";

export interface Interval {
  readonly from: number;
  readonly to: number;
}

export type FairVerdict = "equivalent" | "colder" | "warmer" | "lower" | "higher" | "undecided";

/**
 * An interval against a margin that was set before the data: inside of it is equivalent, beyond it is a
 * difference that matters, across its ends nothing is decided.
 *
 * Source: two one-sided tests (Schuirmann 1987) by inclusion of the interval, here at 95 % instead of 90 %
 */
export function fairVerdict(
  quantity: ComparedQuantity,
  { from, to }: Interval,
  margin: number,
): FairVerdict {
  if (from >= -margin && to <= margin) return "equivalent";
  const vent = quantity === "vent";
  if (from > margin) return vent ? "warmer" : "higher";
  if (to < -margin) return vent ? "colder" : "lower";
  return "undecided";
}

/** Of a difference that exists, found at 95 % in four of five such trials: 1.96 + 0.84 (normal quantiles). */
export const DETECTABLE = 2.8;
