import type { SplitTarget } from "./split-newton.ts";

/** Temperature or pressure at which a feed is split with vapour fraction `beta`. */
export interface SaturationTarget {
  readonly quantity: "T" | "p";
  readonly value: number;
  readonly beta: number;
}

export type SaturationEnd =
  | { readonly kind: "found" }
  /** The envelope was followed and does not reach the target: the range of such points, if any. */
  | {
      readonly kind: "beyond-envelope";
      readonly range: { readonly from: number; readonly to: number } | undefined;
    }
  | { readonly kind: "not-converged" };

/** The two targets of Newton's method. */
export function targetsOf(target: SplitTarget, beta: number): readonly [SplitTarget, SplitTarget] {
  return [target, { quantity: "beta", value: beta }];
}
