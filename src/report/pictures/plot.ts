import type { Point } from "./decimate.ts";
import type { StatePoint } from "./phase-points.ts";

/** Where the lines are drawn, px. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type ToPlace = (state: StatePoint) => Point;
