import {
  type HoldFinding,
  quantityNames,
  type ReadingQuantity,
  type RunValue,
  type RunView,
  type Series,
  type SettleWindow,
  type TraceView,
} from "../../trial/index.ts";
import { chanceText } from "../diagnosis/diagnosis-words.ts";
import { conditionNames, shortConditionNames, shortNames } from "../names.ts";
import type { HoldChartProps } from "../pictures/hold-chart.tsx";
import type { TraceChartProps, TraceInterval } from "../pictures/trace-chart.tsx";
import { rangeOf, type SettledMark } from "../pictures/trace-line.ts";
import type { Page } from "./context.ts";
import { judgedReadings } from "./judged.ts";

/** What a chart of a trace shows, without its id and width. */
export type TracePicture = Omit<TraceChartProps, "id" | "width">;

/** Seconds from a trace's start of a local clock time; two clocks of one file, so no zone matters. */
function secondsFrom(start: string, clock: string): number {
  const instant = (iso: string): number =>
    Date.parse(/(Z|[+-]\d\d:\d\d)$/.test(iso) ? iso : `${iso}Z`);
  return (instant(clock) - instant(start)) / 1000;
}

/** The runs cut from a trace, as stretches of its time; a run without ends takes the whole trace. */
const stretches = (
  trace: TraceView,
  runs: readonly RunView[],
): { readonly run: RunView; readonly from: number; readonly to: number }[] =>
  runs
    .filter((run) => run.trace === trace.id)
    .map((run) => {
      const [first, last] = spanOf(trace);
      return {
        run,
        from: run.from === undefined ? first : secondsFrom(trace.start, run.from),
        to: run.to === undefined ? last : secondsFrom(trace.start, run.to),
      };
    })
    .filter(({ from, to }) => Number.isFinite(from) && Number.isFinite(to) && to > from);

function spanOf({ series }: TraceView): [number, number] {
  const firsts = series.flatMap(({ t }) => t[0] ?? []);
  const lasts = series.flatMap(({ t }) => t[t.length - 1] ?? []);
  return firsts.length === 0 ? [0, 0] : [Math.min(...firsts), Math.max(...lasts)];
}

export function tracePicture(trace: TraceView, page: Page): TracePicture {
  const runs = stretches(trace, page.view.runs);
  const intervals: TraceInterval[] = runs.map(({ run, from, to }) => ({
    from,
    to,
    label: shortConditionNames[run.condition],
  }));
  return {
    title: traceTitle(trace, page),
    lines: trace.series.map((series) => ({
      label: shortNames[series.quantity],
      shown: page.units.quantity(series.quantity, series.unit),
      quiet: series.quantity === "vehicle-speed" || series.quantity === "engine-speed",
      t: series.t,
      values: series.values,
      settled: runs.flatMap(({ run }) => settledMarks(trace, series, run)),
    })),
    intervals,
    gaps: gapsOf(trace.series),
    problems: problemTimes(trace),
  };
}

/** The figures that a run took from this column, each over the tail that gave it. */
const settledMarks = (
  trace: TraceView,
  { column, quantity }: Series,
  run: RunView,
): SettledMark[] =>
  run.values.flatMap((value) => {
    const { source } = value;
    const isOurs =
      value.quantity === quantity &&
      source.kind === "trace" &&
      source.trace === trace.id &&
      source.column === column;
    return isOurs ? [settledMark(value, source.window)] : [];
  });

/** Where the trial took the figure from. */
const settledMark = (
  { value, u }: RunValue,
  { fromSeconds, toSeconds }: SettleWindow,
): SettledMark => ({
  from: fromSeconds,
  to: toSeconds,
  measured: { value, u },
});

/** "Vent air stood at 44.8 ± 2.8 °F parked at idle, 43.9 ± 2.8 °F on the road". */
export function traceTitle(trace: TraceView, { view, units }: Page): string {
  const runs = stretches(trace, view.runs).map(({ run }) => run);
  const told: ReadingQuantity = "vent-temperature";
  const shown = units.quantity(told, trace.series.find(({ quantity }) => quantity === told)?.unit);
  const parts = runs.flatMap((run) =>
    run.values
      .filter(({ quantity, source }) => quantity === told && source.kind === "trace")
      .map((value) => {
        const end = value.form === "steady" ? "" : `${value.form} `;
        return `${end}${shown.pair(value)} ${conditionNames[run.condition]}`;
      }),
  );
  if (parts.length > 0) return `${quantityNames[told]}: ${parts.join("; ")}`;
  return runs.length === 0
    ? `${trace.fileName}: no run is taken from it yet`
    : `${trace.fileName}: no settled vent temperature`;
}

const LONGEST_STEP = 5;

/** Stretches in which no column has a value: longer than five ordinary steps. */
function gapsOf(series: readonly Series[]): { from: number; to: number }[] {
  const times = [...new Set(series.flatMap(({ t }) => [...t]))].sort((a, b) => a - b);
  const steps = times.slice(1).map((t, i) => t - (times[i] ?? 0));
  const ordinary = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? Infinity;
  return steps.flatMap((step, i) => {
    const from = times[i] ?? 0;
    return step > LONGEST_STEP * ordinary ? [{ from, to: from + step }] : [];
  });
}

/**
 * When each kept-aside line was written. A line without a time that could be trusted stands at its place
 * among the lines. Comments stand above the record and are left out.
 */
function problemTimes(trace: TraceView): number[] {
  const [first, last] = spanOf(trace);
  const lines = trace.problems.filter(({ kind }) => kind !== "comment" && kind !== "gap-in-time");
  const count = Math.max(trace.rows.read, 1);
  return lines.map(
    ({ line, seconds }) =>
      seconds ?? first + (last - first) * Math.min(1, Math.max(0, (line - 1) / count)),
  );
}

/** A vacuum hold; undefined when the trace has no vacuum column. */
export function holdPicture(
  trace: TraceView,
  page: Page,
  finding?: HoldFinding,
): Omit<HoldChartProps, "id" | "width"> | undefined {
  const series = trace.series.find(({ quantity }) => quantity === "vacuum") ?? trace.series[0];
  if (!series || series.t.length < 2) return undefined;
  const shown = page.units.quantity(series.quantity, series.unit);
  const levels = boilingLevels(trace, page);
  const [, highest] = rangeOf(series.values);
  const [start = 0, end = 0] = [series.values[0], series.values[series.values.length - 1]];
  const minutes = ((series.t[series.t.length - 1] ?? 0) - (series.t[0] ?? 0)) / 60;
  return {
    title: `From ${shown.text(start)} to ${shown.text(end)} in ${minutes.toFixed(0)} min of hold`,
    t: series.t,
    p: series.values,
    shown,
    levels,
    ...(finding && { fits: competing(finding, series.t[0] ?? 0) }),
    log: levels.some(({ p }) => p > WIDE_APART * highest),
  };
}

const causeNames = {
  tight: "tight",
  wet: "wet",
  outgassing: "outgassing",
  leaking: "leaking",
} as const;

/** The best curve of each cause that is not ruled out, with the cause's probability. */
function competing({ analysis }: HoldFinding, start: number): NonNullable<HoldChartProps["fits"]> {
  const { fits, probabilities } = analysis;
  const causes = (["tight", "wet", "outgassing", "leaking"] as const)
    .filter((cause) => probabilities[cause] >= 0.02)
    .sort((a, b) => probabilities[b] - probabilities[a]);
  return causes.flatMap((cause) => {
    const fit = fits.find((one) => one.cause === cause);
    const label = `${causeNames[cause]} ${chanceText(probabilities[cause])}`;
    return fit ? [{ label, t: fit.t.map((t) => t + start), p: fit.p }] : [];
  });
}

/** A level so far above the trace would press it flat on a linear scale. */
const WIDE_APART = 4;

/** What the vacuum readings of the same stage were held against; the trial computed it and says what it is. */
function boilingLevels(trace: TraceView, page: Page): HoldChartProps["levels"] {
  const bands = judgedReadings(page).flatMap(({ reading, verdict }) =>
    reading.quantity === "vacuum" &&
    reading.stage === trace.stage &&
    reading.round === trace.round &&
    verdict?.band
      ? [{ p: verdict.band.to, label: verdict.basis.replace(/,.*$/u, "") }]
      : [],
  );
  const last = bands.at(-1);
  return last ? [last] : [];
}
