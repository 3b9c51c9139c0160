import type { UnitChoice } from "../choose-unit.ts";
import type { DiagnosisUnits } from "./diagnosis-words.ts";

/** A diagnosis in the units that a reader of a trial chose. */
export const diagnosisUnits = (units: UnitChoice): DiagnosisUnits => ({
  gauge: units.thing("pressure"),
  T: units.quantity("vent-temperature"),
  dT: units.quantity("superheat"),
  dP: units.difference("pressure"),
  ratio: units.quantity("clutch-duty"),
});
