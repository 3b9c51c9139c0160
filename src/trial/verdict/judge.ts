import { fromSI } from "../../units/index.ts";
import type { RunValue, RunView, TrialView } from "../view.ts";
import { judgeGrossMass } from "./gross-mass.ts";
import { judgeRunning } from "./running.ts";
import { judgeStatic } from "./static-pressure.ts";
import { judgeVacuum } from "./vacuum.ts";
import type { ReadingInContext, Verdict } from "./view.ts";

/**
 * The verdict on a reading, typed or logged, with what stands behind it.
 *
 * @returns undefined for readings that are conditions and not results (air, speed, oil …): nothing to judge.
 * @throws RangeError if the unit does not fit the quantity: the door checks that first.
 */
export function judgeReading(view: TrialView, reading: ReadingInContext): Verdict | undefined {
  switch (reading.quantity) {
    case "static-low":
    case "static-high":
      return judgeStatic(view, reading);
    case "low-side":
    case "high-side":
    case "vent-temperature":
      return isRunning(reading) ? judgeRunning(view, reading) : undefined;
    case "vacuum":
      return judgeVacuum(view, reading);
    case "gross-mass":
      return judgeGrossMass(view, reading);
    case "metal-temperature":
    case "return-air-temperature":
    case "return-air-humidity":
    case "outside-temperature":
    case "outside-humidity":
    case "shop-temperature":
    case "barometer":
    case "vehicle-speed":
    case "engine-speed":
    case "can-volume":
    case "oil-drained":
    case "oil-returned":
    case "pump-time":
    case "discharge-temperature":
    case "suction-line-temperature":
    case "liquid-line-temperature":
    case "superheat":
    case "subcooling":
    case "clutch-duty":
    case "vessel-pressure":
    case "vessel-temperature":
    case "boiling-temperature":
      return undefined;
  }
}

/**
 * The verdict on a figure that a run's trace gave; typed figures are judged as readings.
 *
 * @param unit Unit of the file's column, in which the verdict speaks.
 */
export function judgeRunValue(
  view: TrialView,
  run: RunView,
  value: RunValue,
  unit: string,
): Verdict | undefined {
  if (value.source.kind !== "trace") return undefined;
  return judgeReading(view, {
    quantity: value.quantity,
    form: value.form,
    typed: { value: fromSI(value.value, unit, view.atmosphere.value), unit },
    stage: run.stage,
    run: run.id,
    when: run.when,
    u: value.u,
    ...(run.round !== undefined && { round: run.round }),
    ...(value.instrument !== undefined && { instrument: value.instrument }),
  });
}

/** While refrigerant comes out nothing is settled; while it goes in, the model knows how much is inside. */
const isRunning = ({ stage }: ReadingInContext): boolean =>
  stage === "prove" || stage === "charge" || stage === "run" || stage === "restore";
