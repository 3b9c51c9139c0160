export { faultFacts, faultSources } from "./fault-facts.ts";
export { diagnose, type Diagnosis, type DiagnosisNote, type DiagnosisRequest } from "./diagnose.ts";
export { type FaultName, faultNames, severityUnit } from "./hypotheses.ts";
export { nextPlaces, type NextReading } from "./next.ts";
export { type BaselineRun, knowledgeOf } from "./baseline.ts";
export {
  type Knowledge,
  type Move,
  moved,
  ofTheDay,
  priorKnowledge,
  priorSpread,
} from "./nuisances.ts";
export {
  faultQuantities,
  type FaultQuantity,
  type FaultReading,
  inner,
  innerWidth,
  meanOfSwing,
  outer,
  usualUncertainty,
} from "./quantities.ts";
