// Evidence: what readings say about a vehicle, a can and a fault: calibration, identification, fair comparison.
// It must never know trials, logs, units as typed, screens. Basis: SI, kg, absolute pressure.
export type { Contribution } from "./contents/contributions.ts";
export type { PartInterval } from "./contents/compositions.ts";
export type { Evidence } from "./contents/evidence.ts";
export type { RunsSaid } from "./contents/running/said.ts";
export { type Family, type FamilyKind, families, findFamily } from "./contents/families.ts";
export type { NextMeasurement } from "./contents/foresee.ts";
export { type ContentHazard, hazardsOfParts, STILL_PROBABLE } from "./contents/hazards.ts";
export { type Contents, identify, type IdentifyOptions } from "./contents/identify.ts";
export {
  type JudgedFamily,
  type Posterior,
  posteriorOf,
  type PosteriorOptions,
} from "./contents/posterior.ts";
export { CONTENTS_T } from "./contents/surface.ts";
export {
  type ReadRun,
  diagnose,
  type Diagnosis,
  type DiagnosisNote,
  type DiagnosisRequest,
  faultFacts,
  type FaultName,
  faultNames,
  faultQuantities,
  type FaultQuantity,
  type FaultReading,
  faultSources,
  meanOfSwing,
  nextPlaces,
  type NextReading,
  onlySign,
  severityUnit,
  signsNeeded,
} from "./faults/index.ts";
export {
  analyseHold,
  DECIDED,
  type HoldAnalysis,
  type HoldFit,
  type LeakRate,
} from "./hold/analyse.ts";
export type { HoldCause } from "./hold/models.ts";
export type { HoldRows } from "./hold/trace.ts";
export {
  type Charged,
  type ComparableReading,
  type ComparableRun,
  comparedQuantities,
  type ComparedForm,
  type ComparedQuantity,
  type ComparisonInput,
  type ConditionUncertainty,
  type Margins,
} from "./comparison/comparable.ts";
export { compareInEqualConditions, type ComparisonOptions } from "./comparison/compare.ts";
export type {
  CalibrationSummary,
  ComparisonOutcome,
  DriftRow,
  EqualConditions,
  EqualRow,
  Estimate,
  LumpRow,
  StandardRow,
} from "./comparison/view.ts";
export { type FairVerdict, fairVerdict, type Interval } from "./comparison/verdict.ts";
export {
  MOST_REPEATS,
  type PlanInput,
  type PlannedCondition,
  type PlannedInstruments,
  type PlanOutcome,
  type PlanRow,
  planRuns,
} from "./comparison/plan.ts";
