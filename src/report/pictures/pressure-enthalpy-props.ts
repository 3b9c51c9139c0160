import type { CycleLine, NamedState, PiecedLine, StatePoint, StateShown } from "./phase-points.ts";

export interface PressureEnthalpyProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly shown: StateShown;
  /** Liquid that begins to boil, from cold to hot. */
  readonly bubble: readonly StatePoint[];
  /** Vapour that begins to condense, from cold to hot. */
  readonly dew: readonly StatePoint[];
  readonly critical?: StatePoint;
  /** Lines of one vapour fraction. */
  readonly qualities: readonly { readonly quality: number; readonly line: PiecedLine }[];
  /** What vapour fractions are counted by. */
  readonly basis: "mass" | "mole";
  readonly isotherms: readonly { readonly T: number; readonly line: PiecedLine }[];
  readonly states: readonly NamedState[];
  readonly cycles: readonly CycleLine[];
  readonly width: number;
  /** Chosen from the width unless told. */
  readonly height?: number;
}
