import { median } from "../../numerics/index.ts";
import { toSI, unitSize } from "../../units/index.ts";
import type { BodyOf } from "../events.ts";
import { cellOf } from "./cells.ts";
import { clockText, secondsOf } from "./clock.ts";
import { dropOuts, rangeOf, stuckStretches } from "./sensors.ts";
import { type Row, type Table, tableOf } from "./table.ts";
import type { Series, TraceProblem, TraceView } from "./view.ts";

export type Mapping = BodyOf<"trace-imported">["mapping"];
type ColumnMapping = Mapping["columns"][number];

/** What a file says under a mapping; everything it does not say is in `problems`. */
export type TraceContents = Pick<TraceView, "start" | "clock" | "rows" | "series" | "problems">;

interface TimedRow extends Row {
  /** s, the file's clock */
  readonly seconds: number;
}

/** Steps of the clock, in usual steps, that are a gap. */
const gapBeyond = 5;

/**
 * Reads a logger's file: SI series over seconds from its start, and a list of what was kept aside.
 *
 * A row that breaks off is kept aside whole, because its last cell may be cut; a row with a bad cell
 * keeps its good ones. Gauge and vacuum units take the atmosphere.
 *
 * @param atmosphere  Local air pressure, Pa.
 */
export function readTrace(content: string, mapping: Mapping, atmosphere: number): TraceContents {
  const table = tableOf(content);
  const problems: TraceProblem[] = table.comments.map(({ line, raw }) => ({
    ...aside(line, raw, "comment"),
    sentence: "A comment, not a row of the table.",
  }));
  const rows = timedRows(table, mapping, problems);
  const start = rows[0]?.seconds ?? 0;
  const series = mapping.columns.flatMap((column) =>
    readColumn(table, rows, { column, decimal: mapping.decimal, atmosphere, start }, problems),
  );
  return {
    start: clockText(start),
    clock: mapping.time.form === "elapsed" ? "elapsed" : "file",
    rows: { read: table.rows.length, kept: rows.length },
    series,
    problems: problems.map((one) => fromStart(one, start)).sort((a, b) => a.line - b.line),
  };
}

/** While rows are read, a problem's time is the file's clock; nobody knows the start yet. */
const fromStart = (problem: TraceProblem, start: number): TraceProblem =>
  problem.seconds === undefined ? problem : { ...problem, seconds: problem.seconds - start };

const aside = (line: number, raw: string, kind: TraceProblem["kind"]) =>
  ({ line, raw, kind, keptRest: false }) as const;

function timedRows(table: Table, mapping: Mapping, problems: TraceProblem[]): TimedRow[] {
  const timeAt = table.headings.indexOf(mapping.time.column);
  if (timeAt < 0) {
    problems.push(missing(table, mapping.time.column));
    return [];
  }
  const unit = mapping.time.unit === undefined ? 1 : unitSize(mapping.time.unit);
  const kept: TimedRow[] = [];
  for (const row of table.rows) {
    const seconds = secondsOf(row.cells[timeAt] ?? "", mapping.time.form, unit);
    const problem = rowProblem(row, seconds, table.headings.length, kept.at(-1));
    if (problem) problems.push(timed(problem, row, timeAt, seconds));
    if (seconds !== undefined && (!problem || problem.keptRest)) kept.push({ ...row, seconds });
  }
  noteGaps(kept, problems);
  return kept;
}

/** A clock that was cut off or ran back says nothing about when the line was written. */
function timed(
  problem: TraceProblem,
  { cells }: Row,
  timeAt: number,
  seconds: number | undefined,
): TraceProblem {
  const isCut = problem.kind === "short-row" && timeAt >= cells.length - 1;
  const isKnown = seconds !== undefined && !isCut && problem.kind !== "time-runs-back";
  return isKnown ? { ...problem, seconds } : problem;
}

function rowProblem(
  { line, raw, cells }: Row,
  seconds: number | undefined,
  width: number,
  last: TimedRow | undefined,
): TraceProblem | undefined {
  const of = (kind: TraceProblem["kind"], sentence: string, keptRest = false): TraceProblem => ({
    ...aside(line, raw, kind),
    keptRest,
    sentence,
  });
  if (cells.length < width) {
    const words = `The line has ${cells.length} cells of ${width}: it breaks off, so none of them is taken.`;
    return of("short-row", words);
  }
  if (cells.slice(width).some((cell) => cell !== "")) {
    return of("long-row", `The line has ${cells.length} cells where the headings are ${width}.`);
  }
  if (seconds === undefined) return of("bad-time", "The time cannot be read in the chosen form.");
  if (!last || seconds > last.seconds) return undefined;
  if (seconds < last.seconds) return of("time-runs-back", `The clock is behind line ${last.line}.`);
  return raw === last.raw
    ? of("repeated-row", `The line repeats line ${last.line}; it counts once.`)
    : of("repeated-time", `Line ${last.line} has the same time; both are kept.`, true);
}

function noteGaps(rows: readonly TimedRow[], problems: TraceProblem[]): void {
  if (rows.length < 3) return;
  const steps = rows.slice(1).map(({ seconds }, i) => seconds - (rows[i]?.seconds ?? seconds));
  const usual = median(steps);
  rows.forEach(({ line, raw, seconds }, i) => {
    const step = i === 0 ? 0 : (steps[i - 1] ?? 0);
    if (step <= gapBeyond * usual || usual <= 0) return;
    const sentence = `${step.toFixed(0)} s are missing before this line; the usual step is ${usual} s.`;
    problems.push({ ...aside(line, raw, "gap-in-time"), seconds, keptRest: true, sentence });
  });
}

const missing = (table: Table, column: string): TraceProblem => ({
  ...aside(table.headingLine, table.headings.join(table.delimiter), "missing-column"),
  column,
  sentence: `The file has no column "${column}".`,
});

interface ColumnTask {
  readonly column: ColumnMapping;
  readonly decimal: Mapping["decimal"];
  readonly atmosphere: number;
  readonly start: number;
}

interface Sample {
  readonly line: number;
  readonly raw: string;
  readonly t: number;
  readonly value: number;
}

function readColumn(
  table: Table,
  rows: readonly TimedRow[],
  task: ColumnTask,
  problems: TraceProblem[],
): Series[] {
  const { column } = task;
  const at = table.headings.indexOf(column.column);
  if (at < 0) {
    problems.push(missing(table, column.column));
    return [];
  }
  const note = ({ line, raw, t }: Omit<Sample, "value">, kind: TraceProblem["kind"], why: string) =>
    problems.push({
      line,
      seconds: t + task.start,
      raw,
      kind,
      column: column.column,
      keptRest: true,
      sentence: `"${column.column}": ${why}; the rest of the line is kept.`,
    });
  const samples = rows.flatMap((row): Sample[] => {
    const raw = row.cells[at] ?? "";
    const place = { line: row.line, raw, t: row.seconds - task.start };
    const cell = cellOf(raw, task.decimal);
    if (cell.kind === "problem") {
      note(place, cell.problem, cell.words);
      return [];
    }
    const value = toSI({ value: cell.value, unit: column.unit }, task.atmosphere);
    const { from, to } = rangeOf(column.quantity);
    if (value < from || value > to) {
      note(place, "impossible-value", "no such value can exist here");
      return [];
    }
    return [{ ...place, value }];
  });
  return [seriesOf(column, withoutFaults(samples, column, note))];
}

function withoutFaults(
  samples: readonly Sample[],
  column: ColumnMapping,
  note: (sample: Sample, kind: TraceProblem["kind"], why: string) => void,
): readonly Sample[] {
  const values = Float64Array.from(samples, ({ value }) => value);
  const bad = new Set(dropOuts(values, column.quantity));
  for (const index of bad) {
    const sample = samples[index];
    if (sample) note(sample, "drop-out", "the value leaps away and comes back, as no real one can");
  }
  for (const { from, to } of stuckStretches(values)) {
    for (let i = from; i < to; i++) bad.add(i);
    const first = samples[from];
    if (first)
      note(first, "stuck-sensor", `the same figure ${to - from} times in a row, kept aside`);
  }
  return samples.filter((_, i) => !bad.has(i));
}

const seriesOf = (column: ColumnMapping, samples: readonly Sample[]): Series => ({
  column: column.column,
  quantity: column.quantity,
  unit: column.unit,
  ...(column.instrument !== undefined && { instrument: column.instrument }),
  t: Float64Array.from(samples, ({ t }) => t),
  values: Float64Array.from(samples, ({ value }) => value),
});
