export { faultFacts, faultSources, onlySign, signsNeeded } from "./fault-facts.ts";
export { diagnose, type Diagnosis, type DiagnosisNote, type DiagnosisRequest } from "./diagnose.ts";
export { type FaultName, faultNames, severityUnit } from "./hypotheses.ts";
export { nextPlaces, type NextReading } from "./next.ts";
export { knowledgeOf } from "./baseline.ts";
export {
  daySpread,
  type Knowledge,
  type Move,
  moved,
  priorKnowledge,
  touches,
} from "./nuisances.ts";
export {
  faultQuantities,
  type FaultQuantity,
  type FaultReading,
  inner,
  innerWidth,
  meanOfSwing,
  outer,
  type ReadRun,
  usualUncertainty,
} from "./quantities.ts";
