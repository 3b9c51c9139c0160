import type { FairEffect } from "./claims.ts";
import type { FairComparison } from "./fair-comparison.ts";

const quantities = {
  vent: "vent-temperature",
  low: "low-side",
  high: "high-side",
} as const;

/** A comparison in equal conditions as claims take it; steady readings only. */
export const fairEffects = (fair: FairComparison | undefined): readonly FairEffect[] =>
  fair?.kind !== "compared"
    ? []
    : fair.rows
        .filter(({ form }) => form === "steady")
        .map(({ product, condition, quantity, equalConditions, interval }) => ({
          product,
          condition,
          quantity: quantities[quantity],
          basis: "equal-conditions" as const,
          effect: equalConditions.value,
          lower: interval.from,
          upper: interval.to,
        }));
