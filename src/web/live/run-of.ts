import type { IntervalProposal, RunView, TraceView } from "../../trial/index.ts";

/** What a run taken now from a growing trace would hold; clocks are UTC without a mark, as runs take them. */
export interface RunInterval {
  readonly from: string;
  readonly to: string;
  /** The condition that the speed suggests, when it was recorded. */
  readonly proposal?: IntervalProposal;
}

const clock = (ms: number): string => new Date(ms).toISOString().replace(/(\.000)?Z$/, "");

/** From the end of the last run of the trace, or its condition's beginning, up to the newest sample. */
export function runOf(trace: TraceView, runs: readonly RunView[]): RunInterval | undefined {
  const start = Date.parse(`${trace.start}Z`);
  const last = Math.max(...trace.series.map(({ t }) => t.at(-1) ?? -Infinity));
  if (!Number.isFinite(last) || !Number.isFinite(start)) return undefined;
  const taken = runs
    .filter((run) => run.trace === trace.id && run.to !== undefined)
    .map(({ to }) => (Date.parse(`${to ?? ""}Z`) - start) / 1000);
  const proposal = trace.proposals.findLast(({ toSeconds }) => toSeconds >= last - 1);
  const from = Math.max(0, proposal?.fromSeconds ?? 0, ...taken);
  if (!(last > from)) return undefined;
  return {
    from: clock(start + 1000 * from),
    to: clock(start + 1000 * last),
    ...(proposal && { proposal }),
  };
}
