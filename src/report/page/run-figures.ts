import { judgeRunValue, type RunValue, type RunView, type Verdict } from "../../trial/index.ts";
import { unitOfRunValue } from "../choose-unit.ts";
import type { Page } from "./context.ts";

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
