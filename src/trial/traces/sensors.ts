import { median } from "../../numerics/index.ts";
import type { ReadingQuantity } from "../events.ts";

/**
 * Values that no sensor in a workshop could mean: outside what can exist, a leap away and back within
 * seconds, or a figure that stands still while its neighbours never did.
 */
interface Range {
  /** SI */
  readonly from: number;
  readonly to: number;
  /** Smallest leap that can be a drop-out, SI: below it noise does the same. */
  readonly leap: number;
}

const temperature: Range = { from: 223, to: 423, leap: 4 };
const pressure: Range = { from: 0, to: 6e6, leap: 5e4 };
const fraction: Range = { from: 0, to: 1, leap: 0.2 };

/** Generous on purpose (common practice, no source): they catch sentinels and broken wires only. */
const ranges: Readonly<Partial<Record<ReadingQuantity, Range>>> = {
  "low-side": pressure,
  "high-side": pressure,
  "static-low": pressure,
  "static-high": pressure,
  vacuum: { from: 0, to: 1.2e5, leap: 2e3 },
  barometer: { from: 5e4, to: 1.1e5, leap: 2e3 },
  "vent-temperature": temperature,
  "return-air-temperature": temperature,
  "outside-temperature": temperature,
  "shop-temperature": temperature,
  "metal-temperature": temperature,
  "return-air-humidity": fraction,
  "outside-humidity": fraction,
  "vehicle-speed": { from: 0, to: 100, leap: 8 },
  "engine-speed": { from: 0, to: 250, leap: 8 },
};

export const rangeOf = (quantity: ReadingQuantity): Range =>
  ranges[quantity] ?? { from: -Infinity, to: Infinity, leap: Infinity };

/** Longest drop-out that is told from a true change, samples, and neighbours looked at on each side. */
const longestDropOut = 5;
const beside = 7;
/** Leaps, in sample-to-sample scatter, that are no scatter. */
const leapBeyond = 12;

/** Indices of samples that leap away from both sides and come back. */
export function dropOuts(values: Float64Array, quantity: ReadingQuantity): readonly number[] {
  const n = values.length;
  if (n < 2 * beside) return [];
  const steps = values.slice(1).map((value, i) => Math.abs(value - (values[i] ?? value)));
  const size = Math.max(rangeOf(quantity).leap, (leapBeyond * median(steps)) / 0.954);
  const found: number[] = [];
  for (let i = 1; i < n - 1; i++) {
    if (Math.abs((values[i] ?? 0) - (values[i - 1] ?? 0)) < size) continue;
    const back = comesBack(values, i, size);
    for (let k = i; k < back; k++) found.push(k);
    if (back > i) i = back;
  }
  return found;
}

/** Index after a drop-out that begins at `i`; `i` itself when the change stays. */
function comesBack(values: Float64Array, i: number, size: number): number {
  const before = median(values.subarray(Math.max(0, i - beside), i));
  for (let k = i + 1; k <= Math.min(i + longestDropOut, values.length - 1); k++) {
    const after = median(values.subarray(k, Math.min(values.length, k + beside)));
    const away = values.subarray(i, k).every((value) => Math.abs(value - before) > size);
    if (away && Math.abs(after - before) < size / 2 && Math.abs((values[k] ?? 0) - before) < size)
      return k;
  }
  return i;
}

/** Samples that must agree to the last digit before a moving sensor counts as stuck. */
const stuckFrom = 30;
/** Share of samples that differ from the one before, above which a sensor counts as moving. */
const movingShare = 0.7;

/** Stretches [from, to) in which a sensor that otherwise never stands still gives one figure. */
export function stuckStretches(
  values: Float64Array,
): readonly { readonly from: number; readonly to: number }[] {
  const n = values.length;
  const stretches: { from: number; to: number }[] = [];
  let stuckSteps = 0;
  let moves = 0;
  for (let from = 0; from < n;) {
    let to = from + 1;
    while (to < n && values[to] === values[from]) to++;
    if (to - from >= stuckFrom && values[from] !== 0) stretches.push({ from, to });
    if (to - from >= stuckFrom) stuckSteps += to - from - 1;
    if (to < n) moves++;
    from = to;
  }
  return moves > movingShare * (n - 1 - stuckSteps) ? stretches : [];
}
