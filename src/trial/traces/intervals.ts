import { mean, median, standardDeviation } from "../../numerics/index.ts";
import { clockText, secondsOf } from "./clock.ts";
import type { TraceContents } from "./read.ts";
import type { IntervalProposal, Series } from "./view.ts";

/** Below this a vehicle is parked, m/s: a walking pace, above the noise of a wheel or satellite speed. */
const parkedBelow = 1;
/** Idle of a warm petrol or diesel engine ends about here, rev/s (common practice, no source). */
const idleBelow = 1000 / 60;
/** Scatter of speed over its mean up to which a road is steady. */
const steadyUpTo = 0.15;
const shortest = 120;
/** A hole in the record longer than this ends an interval: conditions may have changed unseen. */
const longestGap = 60;
/** Time over which speed is smoothed before it is judged, samples on each side. */
const smoothing = 5;

interface Segment {
  readonly parked: boolean;
  readonly from: number;
  readonly to: number;
}

/** Parked and road intervals by speed, and by gaps. Proposals only: the user confirms or changes them. */
export function proposeIntervals(trace: TraceContents): readonly IntervalProposal[] {
  const speed = trace.series.find(({ quantity }) => quantity === "vehicle-speed");
  const start = secondsOf(trace.start, "iso", 1) ?? 0;
  if (!speed || speed.t.length < 2) return wholeTrace(trace, start);
  return segmentsOf(speed)
    .map((segment) => trimmed(segment, speed))
    .filter(({ from, to }) => to - from >= shortest)
    .map((segment) => proposal(segment, speed, trace, start));
}

function segmentsOf({ t, values }: Series): Segment[] {
  const parked = parkedAt(values);
  const segments: Segment[] = [];
  let first = 0;
  for (let i = 1; i <= t.length; i++) {
    const gap = i < t.length && (t[i] ?? 0) - (t[i - 1] ?? 0) > longestGap;
    if (i < t.length && parked[i] === parked[first] && !gap) continue;
    segments.push({ parked: parked[first] ?? false, from: t[first] ?? 0, to: t[i - 1] ?? 0 });
    first = i;
  }
  return segments;
}

/** Is the median speed around each sample that of a parked vehicle? Sorted only where both kinds are near. */
function parkedAt(values: Float64Array): readonly boolean[] {
  const isSlow = (i: number): number => ((values[i] ?? parkedBelow) < parkedBelow ? 1 : 0);
  let slow = 0;
  for (let i = 0; i < smoothing; i++) slow += isSlow(i);
  return Array.from(values, (_, i) => {
    slow += isSlow(i + smoothing) - isSlow(i - smoothing - 1);
    if (slow === 0) return false;
    const near = values.subarray(Math.max(0, i - smoothing), i + smoothing + 1);
    return slow === near.length || median(near) < parkedBelow;
  });
}

/** A road interval begins when its speed is reached and ends when it is left. */
function trimmed(segment: Segment, speed: Series): Segment {
  const inside = within(speed, segment.from, segment.to);
  if (segment.parked || inside.t.length < 2) return segment;
  const usual = median(inside.values);
  const reached = [...inside.t].filter((_, i) => (inside.values[i] ?? 0) > 0.8 * usual);
  return { parked: false, from: reached[0] ?? segment.from, to: reached.at(-1) ?? segment.to };
}

function proposal(
  { parked, from, to }: Segment,
  speed: Series,
  trace: TraceContents,
  start: number,
): IntervalProposal {
  const { t, values } = within(speed, from, to);
  const meanSpeed = mean(values);
  const engine = trace.series.find(({ quantity }) => quantity === "engine-speed");
  const revolutions = engine && within(engine, from, to).values;
  const raised = revolutions && revolutions.length > 0 && median(revolutions) > idleBelow;
  const steady = standardDeviation(values) <= steadyUpTo * meanSpeed;
  const gaps = Array.from(t).filter((x, i) => i > 0 && x - (t[i - 1] ?? x) > 5).length;
  return {
    condition: parked
      ? raised
        ? "parked-raised-idle"
        : "parked-idle"
      : steady
        ? "road-steady"
        : "road-mixed",
    ...clock(from, to, start),
    meanSpeed,
    gaps,
    why: parked
      ? "the speed stays at nothing"
      : `the speed stays around ${(3.6 * meanSpeed).toFixed(0)} km/h`,
  };
}

const clock = (from: number, to: number, start: number) => ({
  fromSeconds: from,
  toSeconds: to,
  from: clockText(start + from),
  to: clockText(start + to),
});

/** Without a speed nothing can be told apart: one interval, to be named by the user. */
function wholeTrace(trace: TraceContents, start: number): IntervalProposal[] {
  const ends = trace.series.flatMap(({ t }) => (t.length > 0 ? [t[0] ?? 0, t.at(-1) ?? 0] : []));
  if (ends.length === 0) return [];
  const [from, to] = [Math.min(...ends), Math.max(...ends)];
  if (to - from < shortest) return [];
  const why = "no speed was recorded: say what this interval was";
  return [{ condition: "parked-idle", ...clock(from, to, start), gaps: 0, why }];
}

/** Samples with from <= t <= to. */
export function within(
  { t, values }: Pick<Series, "t" | "values">,
  from: number,
  to: number,
): { readonly t: Float64Array; readonly values: Float64Array } {
  const inside = (x: number) => x >= from && x <= to;
  const first = t.findIndex(inside);
  if (first < 0) return { t: new Float64Array(), values: new Float64Array() };
  const last = t.findLastIndex(inside);
  return { t: t.subarray(first, last + 1), values: values.subarray(first, last + 1) };
}
