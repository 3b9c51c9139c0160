import type { MixFailure, StateFailure } from "../../fluids/index.ts";

export type BulkQuantity = "T" | "p" | "rho" | "q" | "h" | "s";

/** Why a material has no such state; figures per kg, those that are not finite left out. */
export interface BulkFailure {
  readonly kind: "failed";
  /**
   * `no-solution`: two phases of a blend exist only from `from` to `to`, as far as they could be followed. The rest
   * as in the fluids' own failures.
   */
  readonly reason:
    "out-of-range" | "supercritical" | "below-minimum" | "no-solution" | "not-converged";
  readonly quantity: BulkQuantity;
  readonly numbers: Readonly<Record<string, number>>;
}

/** What a molar figure of this kind is multiplied by to be one per kg. */
function toSpecific(quantity: BulkQuantity, M: number): number {
  switch (quantity) {
    case "rho":
      return M;
    case "h":
    case "s":
      return 1 / M;
    case "T":
    case "p":
    case "q":
      return 1;
  }
}

function specific(
  figures: Readonly<Record<string, number | null>>,
  quantity: BulkQuantity,
  M: number,
): Readonly<Record<string, number>> {
  const factor = toSpecific(quantity, M);
  return Object.fromEntries(
    Object.entries(figures).flatMap(([name, figure]): [string, number][] =>
      figure !== null && Number.isFinite(figure * factor) ? [[name, figure * factor]] : [],
    ),
  );
}

/** A pure fluid's failure per kg. */
export function ofPure(failure: StateFailure, M: number): BulkFailure {
  const { reason, quantity, value } = failure;
  const figures =
    failure.reason === "not-converged"
      ? { value, reached: failure.reached }
      : { value, from: failure.from, to: failure.to };
  return { kind: "failed", reason, quantity, numbers: specific(figures, quantity, M) };
}

/** A mixture's failure per kg. */
export function ofMixture(failure: MixFailure, M: number): BulkFailure {
  const { reason, value } = failure;
  const quantity = failure.quantity === "beta" ? "q" : failure.quantity;
  const figures =
    failure.reason === "not-converged" ? { value } : { value, from: failure.from, to: failure.to };
  return { kind: "failed", reason, quantity, numbers: specific(figures, quantity, M) };
}
