import type { ReadingView, Verdict } from "../../trial/index.ts";
import type { Page } from "./context.ts";

export interface JudgedReading {
  readonly reading: ReadingView;
  readonly verdict?: Verdict;
}

/** Every reading in force, with its verdict where something can judge it. */
export const judgedReadings = ({ view, judge }: Page): JudgedReading[] =>
  view.readings.map((reading) => {
    const { quantity, form, typed, instrument, stage, round, run, vessel, when } = reading;
    const verdict = judge({
      quantity,
      form,
      typed,
      stage,
      when,
      ...(vessel !== undefined && { vessel }),
      ...(instrument !== undefined && { instrument }),
      ...(round !== undefined && { round }),
      ...(run !== undefined && { run }),
    });
    return verdict ? { reading, verdict } : { reading };
  });
