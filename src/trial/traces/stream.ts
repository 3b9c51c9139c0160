import { median } from "../../numerics/index.ts";
import { toSI, unitSize } from "../../units/index.ts";
import type { BodyOf } from "../events.ts";
import { clockText, instantReader } from "./clock.ts";
import type { TraceContents } from "./read.ts";
import { dropOuts, rangeOf, stuckStretches } from "./sensors.ts";
import type { Series, TraceProblem } from "./view.ts";

type Column = BodyOf<"stream-opened">["columns"][number];
export type StreamBatch = BodyOf<"samples-received">;
type Sample = StreamBatch["samples"][number];

/** Samples in the order of their own clocks; `line` of a problem counts them from 1. */
interface Timed {
  /** s since 1970 */
  readonly seconds: Float64Array;
  readonly samples: readonly Sample[];
}

/** Steps of the clock, in usual steps, that are a gap. */
const gapBeyond = 5;
/** Far beyond anything in a workshop; keeps sums finite. */
const largest = 1e12;

/**
 * What the batches of a stream say, as a file of the same samples would: SI series over seconds from
 * the first sample, and what was kept aside. Batches may come late, out of order or overlap: samples
 * are ordered by their own clocks, and one that came twice alike counts once.
 *
 * @param atmosphere  Local air pressure, Pa.
 */
export function readStream(
  columns: readonly Column[],
  batches: readonly StreamBatch[],
  atmosphere: number,
): TraceContents {
  const problems: TraceProblem[] = [];
  const all = inTime(samplesOf(batches));
  const timed = soundRows(all, columns.length, problems);
  const start = timed.seconds[0] ?? 0;
  noteGaps(timed, start, problems);
  const series = columns.map((column, at) =>
    readColumn({ column, at, atmosphere, start }, timed, problems),
  );
  return {
    start: clockText(start),
    clock: "file",
    rows: { read: all.samples.length, kept: timed.samples.length },
    series,
    problems: problems.sort((a, b) => a.line - b.line),
  };
}

function samplesOf(batches: readonly StreamBatch[]): readonly Sample[] {
  const all: Sample[] = [];
  for (const { samples } of batches) for (const sample of samples) all.push(sample);
  return all;
}

function inTime(samples: readonly Sample[]): Timed {
  const seconds = new Float64Array(samples.length);
  const instant = instantReader();
  let isRising = true;
  for (const [i, { at }] of samples.entries()) {
    const s = instant(at) / 1000;
    seconds[i] = s;
    if (i > 0 && s < (seconds[i - 1] ?? s)) isRising = false;
  }
  if (isRising) return { seconds, samples };
  const order = Array.from(samples, (_, i) => i).sort(
    (a, b) => (seconds[a] ?? 0) - (seconds[b] ?? 0),
  );
  return {
    seconds: Float64Array.from(order, (i) => seconds[i] ?? 0),
    samples: order.map((i) => samples[i] as Sample),
  };
}

const shown = ({ at, values }: Sample): string => `${at} ${values.map(String).join(" ")}`;

/** Leaves out samples of another width, and repeats. */
function soundRows({ seconds, samples }: Timed, width: number, problems: TraceProblem[]): Timed {
  const first = seconds[0] ?? 0;
  const kept: number[] = [];
  samples.forEach((sample, i) => {
    const kind = rowProblem(sample, width, seconds, samples, i);
    if (kind === undefined) kept.push(i);
    else {
      const place = { line: i + 1, seconds: (seconds[i] ?? 0) - first, raw: shown(sample) };
      problems.push({ ...place, kind, keptRest: false, sentence: sentences[kind] });
    }
  });
  if (kept.length === samples.length) return { seconds, samples };
  return {
    seconds: Float64Array.from(kept, (i) => seconds[i] ?? 0),
    samples: kept.map((i) => samples[i] as Sample),
  };
}

const sentences = {
  "short-row": "The sample has fewer values than the stream has columns: none of them is taken.",
  "long-row": "The sample has more values than the stream has columns: none of them is taken.",
  "repeated-row": "The sample repeats an earlier one; it counts once.",
} as const;

function rowProblem(
  sample: Sample,
  width: number,
  seconds: Float64Array,
  samples: readonly Sample[],
  i: number,
): keyof typeof sentences | undefined {
  if (sample.values.length !== width) {
    return sample.values.length < width ? "short-row" : "long-row";
  }
  for (let k = i - 1; k >= 0 && seconds[k] === seconds[i]; k--) {
    const other = samples[k]?.values;
    if (other?.every((value, c) => value === sample.values[c])) return "repeated-row";
  }
  return undefined;
}

function noteGaps({ seconds, samples }: Timed, start: number, problems: TraceProblem[]): void {
  if (seconds.length < 3) return;
  const steps = new Float64Array(seconds.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = (seconds[i + 1] ?? 0) - (seconds[i] ?? 0);
  const usual = median(steps);
  if (usual <= 0) return;
  steps.forEach((step, i) => {
    const sample = samples[i + 1];
    if (step <= gapBeyond * usual || !sample) return;
    problems.push({
      line: i + 2,
      seconds: (seconds[i + 1] ?? start) - start,
      raw: shown(sample),
      kind: "gap-in-time",
      keptRest: true,
      sentence: `${step.toFixed(0)} s are missing before this sample; the usual step is ${usual.toFixed(1)} s.`,
    });
  });
}

interface ColumnTask {
  readonly column: Column;
  readonly at: number;
  readonly atmosphere: number;
  readonly start: number;
}

/** One column's good values. A null is an instrument that said nothing: no problem, no value. */
function readColumn(task: ColumnTask, timed: Timed, problems: TraceProblem[]): Series {
  const { column, at, atmosphere, start } = task;
  const zero = toSI({ value: 0, unit: column.unit }, atmosphere);
  const step = toSI({ value: 1, unit: column.unit }, atmosphere) < zero ? -1 : 1;
  const size = step * unitSize(column.unit);
  const { from, to } = rangeOf(column.quantity);
  const rows = new Float64Array(timed.samples.length);
  const values = new Float64Array(timed.samples.length);
  const note = (row: number, kind: TraceProblem["kind"], why: string): void => {
    problems.push({
      line: row + 1,
      seconds: (timed.seconds[row] ?? start) - start,
      raw: String(timed.samples[row]?.values[at] ?? ""),
      kind,
      column: column.column,
      keptRest: true,
      sentence: `"${column.column}": ${why}; the rest of the sample is kept.`,
    });
  };
  let n = 0;
  timed.samples.forEach(({ values: typed }, row) => {
    const value = typed[at];
    if (value === null || value === undefined) return;
    const si = zero + value * size;
    if (si < from || si > to || Math.abs(si) > largest) {
      note(row, "impossible-value", "no such value can exist here");
      return;
    }
    rows[n] = row;
    values[n++] = si;
  });
  return withoutFaults(
    task,
    timed,
    { rows: rows.subarray(0, n), values: values.subarray(0, n) },
    note,
  );
}

function withoutFaults(
  { column, start }: ColumnTask,
  timed: Timed,
  { rows, values }: { readonly rows: Float64Array; readonly values: Float64Array },
  note: (row: number, kind: TraceProblem["kind"], why: string) => void,
): Series {
  const bad = new Set(dropOuts(values, column.quantity));
  for (const i of bad) {
    note(rows[i] ?? 0, "drop-out", "the value leaps away and comes back, as no real one can");
  }
  for (const { from, to } of stuckStretches(values)) {
    for (let i = from; i < to; i++) bad.add(i);
    note(
      rows[from] ?? 0,
      "stuck-sensor",
      `the same figure ${to - from} times in a row, kept aside`,
    );
  }
  const isGood = (_: number, i: number): boolean => !bad.has(i);
  const kept = bad.size === 0 ? rows : rows.filter(isGood);
  return {
    column: column.column,
    quantity: column.quantity,
    unit: column.unit,
    ...(column.instrument !== undefined && { instrument: column.instrument }),
    t: kept.map((row) => (timed.seconds[row] ?? start) - start),
    values: bad.size === 0 ? values : values.filter(isGood),
  };
}
