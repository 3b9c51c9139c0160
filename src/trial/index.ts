// The trial: the event log's vocabulary and its pure projections (ledger, stages, runs, traces).
// Knows: what was said, weighed and recorded, in what order, and what follows from it. Per kg, SI inside.
// Must never know: where the log is stored, how it is shown, what time it is, who is asking.
export {
  accuracySchema,
  bodySchemas,
  envelopeSchema,
  quantitySchema,
  readingForms,
  readingQuantities,
  repeatedStages,
  stages,
} from "./events.ts";
export type {
  Accuracy,
  BodyOf,
  EventOf,
  EventType,
  ReadingForm,
  ReadingQuantity,
  Stage,
  Substance,
  TrialEvent,
} from "./events.ts";
export { canonicalText, sorted as inWrittenOrder } from "./order.ts";
export { project } from "./project.ts";
export { freshMemory } from "./memory.ts";
export type { Memory } from "./memory.ts";
export { parseBody, parseEvent } from "./parse.ts";
export type { Parsed, ParsedEvent } from "./parse.ts";
export {
  exportHead,
  exportTrial,
  parseEventsInSlices,
  parseExport,
  parseExportInSlices,
} from "./export.ts";
export type { ParsedExport, TrialExport } from "./export.ts";
export { chainHash, chainStart, logSeal, verifyChain } from "./integrity.ts";
export type { ChainEnd, ChainRow, ChainVerdict } from "./integrity.ts";
export { redacted, type Redacted, type RedactionChoices } from "./redaction/redacted.ts";
export type { Replacement } from "./redaction/replaced.ts";
export { type Hidable, hidables } from "./redaction/texts.ts";
export { quantityDimension } from "./dimensions.ts";
export { quantityNames, quantityWords } from "./quantity-names.ts";
export { knownBlends, knownFluids, type KnownFluid } from "./known-fluids.ts";
export { instrumentUncertainty } from "./instruments.ts";
export { mixingWarning } from "./ledger/mixing.ts";
export { headingSignature, inspectTable } from "./traces/inspect.ts";
export type { ColumnSuggestion, Inspection } from "./traces/inspect.ts";
export { readTrace } from "./traces/read.ts";
export type { Mapping, TraceContents } from "./traces/read.ts";
export { proposeIntervals, within } from "./traces/intervals.ts";
export { settle } from "./traces/settle.ts";
export type { SettleOptions } from "./traces/settle.ts";
export { type Outlook, outlookOf } from "./traces/outlook.ts";
export type { Measured } from "./measured.ts";
export type {
  Atmosphere,
  Comparison,
  ConfirmationView,
  CorrectionView,
  DifferenceRow,
  Entry,
  EntryOf,
  EntryType,
  InstrumentView,
  Issue,
  NoteView,
  OpenedPlan,
  ProductView,
  ReadingView,
  Refused,
  RunValue,
  RunValueSource,
  RunView,
  StoredEvent,
  TrialView,
  VehicleView,
  VesselView,
  WithdrawalView,
} from "./view.ts";
export { type ModelChoice, modelOf } from "./expectation/vehicle-model.ts";
export { lostAccount, unaccountedAccount, vehicleAccount } from "./ledger/view.ts";
export type {
  Account,
  AccountId,
  AccountStep,
  Closure,
  Content,
  ContentBasis,
  Ledger,
  LedgerStep,
  MixingConcern,
  Posting,
  SubstanceKey,
} from "./ledger/view.ts";
export type { Caution, ReadingPrompt, Requirement, StageView } from "./stages/view.ts";
export type {
  IntervalProposal,
  Series,
  SettleWindow,
  Settlement,
  Slope,
  TraceProblem,
  TraceView,
} from "./traces/view.ts";
export {
  claimFindings,
  type ClaimFinding,
  type FairEffect,
  type ProductClaims,
  type WorkedOut,
} from "./findings/claims.ts";
export type {
  ClaimContext,
  ClaimEffect,
  ClaimEvidence,
  ClaimVerdict,
  KnownSubstance,
} from "./findings/claims/context.ts";
export type { ChargeCost } from "./findings/claims/cost.ts";
export { judgeClaim } from "./findings/claims/judge-claim.ts";
export { type ClaimKind, claimKinds, type ClaimReading } from "./findings/claims/kinds.ts";
export { knownSubstance, substanceOfMoles } from "./findings/claims/known-substance.ts";
export { readClaim } from "./findings/claims/read-claim.ts";
export { type HazardFinding, hazardFindings } from "./findings/hazards.ts";
export { treatments } from "./findings/treatments.ts";
export { cautionsAt } from "./stages/stages.ts";
export { type Treatment, treatmentSentence } from "./stages/treatment.ts";
export { judgeReading, judgeRunValue } from "./verdict/judge.ts";
export type { ReadingInContext, Verdict, VerdictDetail } from "./verdict/view.ts";
export { conditionsInput } from "./findings/conditions-input.ts";
export { contentsOf } from "./findings/contents.ts";
export type { ContentsEvidence } from "./findings/contents.ts";
export type { GatheredEvidence } from "./findings/gathered-evidence.ts";
export { type HoldFinding, holdFinding } from "./findings/hold.ts";
export {
  type FairComparison,
  type FairComparisonOptions,
  fairComparisonOf,
  type FairDriftRow,
  type FairRow,
} from "./findings/fair-comparison.ts";
export {
  type CombinedEffect,
  combinedTrials,
  type CombinedTrials,
  type TrialEffect,
} from "./findings/combine.ts";
export type { PlannedMargin } from "./findings/planned-margin.ts";
export { dataTables, type TableFile } from "./tables/data-tables.ts";
export { parseLogTable } from "./tables/log-table.ts";
export {
  type ChargeMass,
  type ChargeMethod,
  type ChargePlan,
  chargePlan,
  type ChargeQuestion,
} from "./findings/charge-plan.ts";
export type { ChargeStep } from "./findings/charge-steps.ts";
export { type FindingPlace, type Handled } from "./findings/handled.ts";
export {
  chargingFinding,
  type ChargingFinding,
  type NoCharging,
  type ScaleFit,
} from "./findings/charging.ts";
export {
  type OilAccount,
  recoveryFinding,
  type RecoveryFinding,
  type StillInside,
  type VesselAir,
} from "./findings/recovery.ts";
export type { FitReason, StopMark, VesselFit } from "./findings/vessel-fit.ts";
export { type FaultQuestion, faultQuestion } from "./findings/faults.ts";
export {
  answersOf,
  type RestingFindings,
  restingFindings,
  type Settled,
} from "./findings/answer.ts";
export type {
  Answer,
  AnswerQuestion,
  AnswerVerdict,
  Reason,
  ReasonFact,
} from "./findings/answer/view.ts";
export { type Identification, identifiedSubstances } from "./findings/identified.ts";
