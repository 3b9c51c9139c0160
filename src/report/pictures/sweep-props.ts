import type { Shown } from "../shown.ts";

/** One place of a sweep, SI. */
export interface SweepPoint {
  readonly x: number;
  /** Absent where there is no answer. */
  readonly y?: number;
  /** Between what the quantity swings, or the band around it; SI. */
  readonly area?: { readonly from: number; readonly to: number };
  /** The area is a swing, and `y` its mean, which nobody reads. */
  readonly swings?: boolean;
}

/** One quantity against what is swept. */
export interface SweepLine {
  readonly name: string;
  readonly shown: Shown;
  /** What the area around the line means, where a point has one. */
  readonly areaName?: string;
  readonly points: readonly SweepPoint[];
}

/** A stretch without an answer. */
export interface SweepGap {
  readonly from: number;
  readonly to: number;
  readonly why: string;
}

export interface SweepChartProps {
  /** Unique on the page. */
  readonly id: string;
  readonly title: string;
  readonly over: { readonly name: string; readonly shown: Shown };
  /** All of them over the same places. */
  readonly lines: readonly SweepLine[];
  readonly gaps: readonly SweepGap[];
  /** The place that is asked about elsewhere on the page, SI. */
  readonly here?: number;
  readonly width: number;
  readonly height?: number;
}
