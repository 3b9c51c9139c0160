import type { Measured } from "../../trial/index.ts";
import type { Shown } from "../shown.ts";

/** One line of the chart. SI; `t` in seconds from the trace's start. */
export interface TraceLine {
  /** Short: it stands in the margin, at the end of its line. */
  readonly label: string;
  readonly shown: Shown;
  readonly t: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  /** Where it was taken to stand: the windows that gave a run its figure. */
  readonly settled: readonly SettledMark[];
}

export interface SettledMark {
  readonly from: number;
  readonly to: number;
  readonly measured: Measured;
}

/** Lowest and highest; zeros for an empty line. */
export function rangeOf(values: ArrayLike<number>): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < values.length; i++) {
    low = Math.min(low, values[i] ?? low);
    high = Math.max(high, values[i] ?? high);
  }
  return low <= high ? [low, high] : [0, 0];
}
