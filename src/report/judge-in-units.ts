import {
  judgeReading,
  type ReadingInContext,
  type TrialView,
  type Verdict,
} from "../trial/index.ts";
import { fromSI, type Quantity, toSI, unitById } from "../units/index.ts";
import type { UnitChoice } from "./choose-unit.ts";

/**
 * Verdicts whose sentences speak in the reader's units. The trial writes in the units that were typed,
 * so it is handed the same readings as if they had been typed in the report's.
 */
export function judgeInUnits(
  view: TrialView,
  units: UnitChoice,
): (reading: ReadingInContext) => Verdict | undefined {
  if (units.system === "as-typed") return (reading) => judgeReading(view, reading);
  const retyped = <R extends Pick<ReadingInContext, "quantity" | "typed">>(reading: R): R => ({
    ...reading,
    typed: inUnit(
      reading.typed,
      units.quantity(reading.quantity, reading.typed.unit).unit,
      view.atmosphere.value,
    ),
  });
  const { vehicle } = view;
  const told: TrialView = {
    ...view,
    readings: view.readings.map(retyped),
    ...(vehicle && {
      vehicle: {
        ...vehicle,
        labelChargeTyped: inUnit(vehicle.labelChargeTyped, units.thing("small-mass").unit),
      },
    }),
  };
  return (reading) => judgeReading(told, retyped(reading));
}

/** A gauge that counts from the air stays one: what it was read from decides what it can tell. */
function inUnit(typed: Quantity, unit: string, atmosphere?: number): Quantity {
  if (unitById(unit).reference !== unitById(typed.unit).reference) return typed;
  return { value: fromSI(toSI(typed, atmosphere), unit, atmosphere), unit };
}
