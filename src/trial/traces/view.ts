import type { ReadingQuantity, Stage } from "../events.ts";
import type { Measured } from "../measured.ts";

/** Something in a file that was not taken, with what stood there: kept aside, never dropped. */
export interface TraceProblem {
  /** Line in the file, counted from 1. */
  readonly line: number;
  /** s from the trace's start; absent where the line has no time that could be trusted. */
  readonly seconds?: number;
  /** The cell or the whole line as it came. */
  readonly raw: string;
  readonly column?: string;
  readonly kind:
    | "comment"
    | "short-row"
    | "long-row"
    | "bad-time"
    | "repeated-row"
    | "repeated-time"
    | "time-runs-back"
    | "gap-in-time"
    | "missing-column"
    | "blank-cell"
    | "over-range"
    | "no-value-mark"
    | "not-a-number"
    | "impossible-value"
    | "drop-out"
    | "stuck-sensor";
  /** Were other cells of the line kept? */
  readonly keptRest: boolean;
  readonly sentence: string;
}

/** One column in SI. `t` in seconds from the trace's start; only good cells are in it. */
export interface Series {
  readonly column: string;
  readonly quantity: ReadingQuantity;
  readonly unit: string;
  readonly instrument?: string;
  readonly t: Float64Array;
  readonly values: Float64Array;
}

/** An interval that looks like one condition. The user confirms it; then it is a run. */
export interface IntervalProposal {
  readonly condition: "parked-idle" | "parked-raised-idle" | "road-steady" | "road-mixed";
  /** Seconds from the trace's start. */
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** The file's own clock, ISO local, as `run-recorded` takes it. */
  readonly from: string;
  readonly to: string;
  /** m/s, when there is a speed column. */
  readonly meanSpeed?: number;
  readonly gaps: number;
  readonly why: string;
}

export interface Slope {
  /** SI units per second. */
  readonly value: number;
  readonly u: number;
}

export interface SettleWindow {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly n: number;
  /** Independent samples that n correlated ones are worth. */
  readonly nEff: number;
}

/** What the tail of a trace says about where a quantity stands. */
export type Settlement =
  | {
      readonly kind: "settled" | "still-moving";
      /** Mean of the last window; u without the instrument's own limit. */
      readonly value: number;
      readonly u: number;
      readonly slope: Slope;
      readonly window: SettleWindow;
      /** Where an exponential approach would end, when the data carry one. */
      readonly end?: Measured & { readonly tau: number };
    }
  | {
      readonly kind: "cycling";
      readonly lowest: Measured;
      readonly highest: Measured;
      readonly mean: number;
      readonly cycles: number;
      /** s */
      readonly period: number;
      readonly window: SettleWindow;
    }
  | {
      readonly kind: "too-short";
      readonly n: number;
      readonly seconds: number;
      readonly neededSeconds: number;
    };

export interface TraceView {
  readonly id: string;
  readonly fileName: string;
  readonly kind: "run" | "hold";
  readonly stage: Stage;
  readonly round?: string;
  readonly when: string;
  /** The file's clock at t = 0, as `run-recorded` takes it; counts from 1970 when time is elapsed. */
  readonly start: string;
  readonly clock: "file" | "elapsed";
  /** It came sample by sample and may grow; its clock is UTC. */
  readonly stream?: true;
  readonly rows: { readonly read: number; readonly kept: number };
  readonly series: readonly Series[];
  readonly problems: readonly TraceProblem[];
  readonly proposals: readonly IntervalProposal[];
}
