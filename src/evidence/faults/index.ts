export { faultFacts, faultSources } from "./fault-facts.ts";
export {
  diagnose,
  type Diagnosis,
  type DiagnosisNote,
  type DiagnosisRequest,
  type FaultView,
  type NoDiagnosis,
  type ReadingView,
} from "./diagnose.ts";
export { type FaultName, faultNames, severityUnit } from "./hypotheses.ts";
export { nextPlaces, type NextPlace, type NextReading } from "./next.ts";
export type { BaselineRun } from "./baseline.ts";
export { faultQuantities, type FaultQuantity, type FaultReading } from "./quantities.ts";
export type { Sign } from "./signs.ts";
