import {
  judgeRunValue,
  type ReadingView,
  type RunValue,
  type RunView,
  type Verdict,
} from "../../trial/index.ts";
import { unitOfRunValue } from "../choose-unit.ts";
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

/** The figures of a run with the unit in which each came. */
export const runFigures = (
  run: RunView,
  { view }: Page,
): { readonly value: RunValue; readonly typedUnit?: string; readonly verdict?: Verdict }[] =>
  run.values.map((value) => {
    const typedUnit = unitOfRunValue(value, view.readings, view.traces);
    if (typedUnit === undefined) return { value };
    const verdict = judgeRunValue(view, run, value, typedUnit);
    return { value, typedUnit, ...(verdict && { verdict }) };
  });
