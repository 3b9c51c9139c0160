import type { Bulk, BulkOutcome, BulkPhase } from "../bulk/bulk.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";

/** A state on a chart. K, Pa, kg/m3, J/kg, J/(kg K). */
export interface ChartPoint {
  readonly T: number;
  readonly p: number;
  readonly rho: number;
  readonly h: number;
  readonly s: number;
}

/** Where a line is broken: no state there, and why. */
export interface Gap {
  readonly quantity: "T" | "p";
  readonly value: number;
  readonly because: BulkFailure["reason"];
}

/** A line on a chart: pieces of at least one point, and the gaps between and beside them. */
export interface ChartLine {
  readonly pieces: readonly (readonly ChartPoint[])[];
  readonly gaps: readonly Gap[];
}

/** A place on a line: a point, or why there is none. */
export type Place = ChartPoint | Gap;

/** Joins places to pieces, broken at every gap. */
export function lineOf(places: readonly Place[]): ChartLine {
  const pieces: ChartPoint[][] = [];
  const gaps: Gap[] = [];
  let open: ChartPoint[] | undefined;
  for (const place of places) {
    if ("because" in place) {
      gaps.push(place);
      open = undefined;
    } else if (open) open.push(place);
    else {
      open = [place];
      pieces.push(open);
    }
  }
  return { pieces, gaps };
}

/** A bulk as a place, or the gap where there is none. */
export function placeOf(outcome: BulkOutcome, quantity: "T" | "p", value: number): Place {
  if (outcome.kind === "failed") return { quantity, value, because: outcome.reason };
  const { T, p, rho, h, s } = outcome;
  return { T, p, rho, h, s };
}

/** One phase of a bulk as a point. */
export const phasePoint = ({ T, p }: Bulk, { rho, h, s }: BulkPhase): ChartPoint => ({
  T,
  p,
  rho,
  h,
  s,
});
