import type { Shown } from "../shown.ts";

/** A state of a fluid: K, Pa absolute, J/kg. */
export interface StatePoint {
  readonly T: number;
  readonly p: number;
  readonly h: number;
}

/** A line in pieces: between two of them there is no state. */
export type PiecedLine = readonly (readonly StatePoint[])[];

/** A point on a line of boiling or condensing. */
export interface LinePoint {
  readonly T: number;
  readonly p: number;
}

/** A state with the name that stands beside its mark. */
export interface NamedState extends StatePoint {
  readonly name: string;
}

/** States that follow one another in a closed loop. */
export interface CycleLine {
  readonly name: string;
  readonly points: readonly StatePoint[];
  /** Numbered corners of the loop. */
  readonly corners: readonly NamedState[];
}

/** How the three quantities of a state are shown. */
export interface StateShown {
  /** A unit that counts from vacuum: its scale has decades. */
  readonly p: Shown;
  readonly h: Shown;
  readonly T: Shown;
}

/** Every so many of a list, its first and last among them. */
export function thinned<T>(list: readonly T[], most: number): readonly T[] {
  if (list.length <= most) return list;
  const step = (list.length - 1) / (most - 1);
  return Array.from({ length: most }, (_, i) => list[Math.round(i * step)]).filter(
    (one): one is T => one !== undefined,
  );
}
