export { faultFacts, faultSources } from "./fault-facts.ts";
export { diagnose, type Diagnosis, type DiagnosisNote, type DiagnosisRequest } from "./diagnose.ts";
export { type FaultName, faultNames, severityUnit } from "./hypotheses.ts";
export { nextPlaces, type NextReading } from "./next.ts";
export {
  faultQuantities,
  type FaultQuantity,
  type FaultReading,
  type ReadRun,
} from "./quantities.ts";
