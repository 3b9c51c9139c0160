import type { Answer } from "../../calculations/index.ts";
import type { Job } from "../engine/batch.ts";
import type { SweepAxis } from "./sweep-axes.ts";
import { type ReadingName, runOf, type Span } from "./vehicle-results.ts";

/** A band costs two solves a parameter: few places carry one, and it is drawn straight between them. */
const PLACES = 9;

/** The band of each quantity at one place; none where there is no answer. */
export interface BandPlace {
  readonly at: number;
  readonly band: Readonly<Partial<Record<ReadingName, Span>>>;
}

const placesOf = ({ from, to }: SweepAxis): number[] =>
  Array.from({ length: PLACES }, (_, i) => from + (i / (PLACES - 1)) * (to - from));

/** The question at each place of the axis, with its band. */
export const bandJobs = (input: Readonly<Record<string, unknown>>, axis: SweepAxis): Job[] =>
  placesOf(axis).map((at) => ({
    name: "vehicle",
    input: { ...input, [axis.name]: at, band: true },
  }));

export const bandsOf = (axis: SweepAxis, answers: readonly Answer[]): BandPlace[] =>
  placesOf(axis).map((at, i) => {
    const run = runOf(answers[i]);
    if (run?.state !== "running" || !run.band) return { at, band: {} };
    const { highOn, ...band } = run.band;
    // A cycling gauge is read while the clutch is engaged.
    return { at, band: { ...band, ...(run.highOn !== undefined && highOn && { high: highOn }) } };
  });

/** The band around a value, between the two places beside it; none where one of them has none. */
export function bandAt(
  bands: readonly BandPlace[],
  name: ReadingName,
  at: number,
  value: number,
): Span | undefined {
  // The last place of both series may differ by rounding.
  const next = Math.max(
    1,
    bands.findIndex((one, i) => one.at >= at || i === bands.length - 1),
  );
  const [left, right] = [bands[next - 1], bands[next]];
  const [a, b] = [left?.band[name], right?.band[name]];
  if (!left || !right || !a || !b) return undefined;
  const part = Math.min(1, Math.max(0, (at - left.at) / (right.at - left.at)));
  const between = (first: number, second: number): number => first + part * (second - first);
  // Where the line bends between two places, a straight edge would cut it off.
  return {
    from: Math.min(value, between(a.from, b.from)),
    to: Math.max(value, between(a.to, b.to)),
  };
}
