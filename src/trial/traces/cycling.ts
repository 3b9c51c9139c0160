import { autocovariance, mean, median, standardDeviation } from "../../numerics/index.ts";
import type { Measured } from "../view.ts";
import type { Settlement } from "./view.ts";

/**
 * The swing of a cycling clutch: the mean of its low and of its high turning points. One number
 * between them describes no moment of the run.
 *
 * A swing is counted when the smoothed trace turns by more than `turnBeyond` of the sample-to-sample
 * scatter; it is a cycle of a clutch only when it repeats, so that wandering noise is not taken for one.
 */
const turnBeyond = 6;
const fewestCycles = 3;
/** Correlation after one period, and (negated) after half a period, of something that repeats. */
const repeats = 0.35;

export function cyclingOf(
  t: Float64Array,
  y: Float64Array,
): Extract<Settlement, { kind: "cycling" }> | undefined {
  const smooth = y.map((value, i) => mean(y.subarray(Math.max(0, i - 1), i + 2)) || value);
  const steps = y.slice(1).map((value, i) => Math.abs(value - (y[i] ?? value)));
  // Median of |difference of two normals| is 0.954 sigma; a resolution step can make it zero.
  const scatter = median(steps) / 0.954;
  const turns = turningPoints(smooth, Math.max(turnBeyond * scatter, 1e-12));
  const lows = turns.filter(({ low }) => low).map(({ index }) => index);
  const highs = turns.filter(({ low }) => !low).map(({ index }) => index);
  const cycles = Math.min(lows.length, highs.length);
  if (cycles < fewestCycles || !repeating(smooth, lows)) return undefined;
  const first = lows[0] ?? 0;
  const last = lows.at(-1) ?? 0;
  const times = (index: number) => t[index] ?? 0;
  return {
    kind: "cycling",
    lowest: turning(lows.map((i) => smooth[i] ?? 0)),
    highest: turning(highs.map((i) => smooth[i] ?? 0)),
    mean: mean(y.subarray(first, last + 1)),
    cycles,
    period: (times(last) - times(first)) / (lows.length - 1),
    window: { fromSeconds: times(0), toSeconds: times(t.length - 1), n: t.length, nEff: cycles },
  };
}

const turning = (values: readonly number[]): Measured => ({
  value: mean(values),
  u: standardDeviation(values) / Math.sqrt(values.length),
});

interface Turn {
  readonly index: number;
  readonly low: boolean;
}

/** Alternating extremes that stand out by at least `size` from the next turn; open ends are left out. */
function turningPoints(y: Float64Array, size: number): Turn[] {
  const turns: Turn[] = [];
  let [lowAt, highAt] = [0, 0];
  let direction = 0;
  for (let i = 1; i < y.length; i++) {
    const value = y[i] ?? 0;
    if (value < (y[lowAt] ?? 0)) lowAt = i;
    if (value > (y[highAt] ?? 0)) highAt = i;
    if (direction >= 0 && (y[highAt] ?? 0) - value > size) {
      if (direction > 0) turns.push({ index: highAt, low: false });
      direction = -1;
      lowAt = i;
    } else if (direction <= 0 && value - (y[lowAt] ?? 0) > size) {
      if (direction < 0) turns.push({ index: lowAt, low: true });
      direction = 1;
      highAt = i;
    }
  }
  return turns;
}

function repeating(y: Float64Array, lows: readonly number[]): boolean {
  const first = lows[0] ?? 0;
  const last = lows.at(-1) ?? 0;
  const period = (last - first) / Math.max(1, lows.length - 1);
  if (period < 4 || lows.length < fewestCycles) return false;
  const centre = mean(y);
  const swing = y.map((value) => value - centre);
  const variance = autocovariance(swing, 0);
  const after = (lag: number) => autocovariance(swing, Math.round(lag)) / variance;
  return after(period) > repeats && after(period / 2) < -repeats;
}
