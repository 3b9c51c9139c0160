// The report: pictures shared with the app, and one self-contained page from a trial's log.
// Knows: words, units, layout, and how a number with its uncertainty is drawn. SI goes in.
// Must never know: physics, storage, the DOM, the clock. It formats what trial and calculations give.
export { pictureStyle } from "./picture-style.ts";
export { reportStyle } from "./page/page-style.ts";
export {
  pictureFile,
  type PictureFormat,
  pictureFormats,
  type PictureToSave,
} from "./export/picture-file.ts";
export {
  checkReport,
  renderReport,
  renderView,
  type ReportOptions,
  type ViewOptions,
} from "./render-report.ts";
export { hidableNames, redactionSentence } from "./redaction-words.ts";
export type { Difference } from "./seal/differences.ts";
export { isSigningKey, newSigningKey, publicKeyOf, type SigningKey } from "./seal/signature.ts";
export type { Check, CheckName, Verification } from "./seal/verify-report.ts";
export {
  type Thing,
  type UnitChoice,
  unitChoice,
  unitOfRunValue,
  type UnitSystem,
} from "./choose-unit.ts";
export { conditionsSentence } from "./conditions-sentence.ts";
export { type MeasuredLoop, measuredLoops } from "./measured-loops.ts";
export { COVERAGE_95, type Shown, shownDifference, shownIn } from "./shown.ts";
export {
  airSourceNames,
  claimKindNames,
  clockText,
  compressorNames,
  conditionNames,
  dayText,
  meteringNames,
  momentText,
  problemNames,
  readingName,
  shortNames,
  stageNames,
  testerAnswer,
  testerNames,
} from "./names.ts";
export { bandLook } from "./pictures/band-look.ts";
export { BandScale, type BandScaleProps, bandTable } from "./pictures/band-scale.tsx";
export { MassColumns, type MassColumnsProps, massTable } from "./pictures/mass-columns.tsx";
export { TraceChart, type TraceChartProps, traceTable } from "./pictures/trace-chart.tsx";
export type { TraceInterval } from "./pictures/trace-chart.tsx";
export type { SettledMark, TraceLine } from "./pictures/trace-line.ts";
export {
  ComparisonChart,
  type ComparisonChartProps,
  type ComparisonRow,
  comparisonTable,
} from "./pictures/comparison-chart.tsx";
export { HoldWords } from "./page/hold-words.tsx";
export { fairKind, FairScales, type FairScalesProps } from "./pictures/fair-scales.tsx";
export {
  fairName,
  fairSentence,
  fairShown,
  fairTable,
  lumpTable,
  standardTable,
  ventPicture,
} from "./fair-words.ts";
export { holdPicture, tracePicture, traceTitle } from "./page/trace-picture.ts";
export type { Page } from "./page/context.ts";
export { HoldChart, type HoldChartProps, holdTable } from "./pictures/hold-chart.tsx";
export { DataTable, FoldedTable, type PictureTable } from "./pictures/picture.tsx";
export { type VerdictKind, VerdictMark, VerdictWord } from "./pictures/verdict-mark.tsx";
export { PressureEnthalpyChart } from "./pictures/pressure-enthalpy.tsx";
export type { PressureEnthalpyProps } from "./pictures/pressure-enthalpy-props.ts";
export { pressureEnthalpyTable } from "./pictures/pressure-enthalpy-words.ts";
export { PressureTemperatureChart } from "./pictures/pressure-temperature.tsx";
export type {
  PairReading,
  PressureTemperatureProps,
  SaturationLine,
} from "./pictures/pressure-temperature-props.ts";
export { pressureTemperatureTable } from "./pictures/pressure-temperature-words.ts";
export { WithdrawalChart } from "./pictures/withdrawal-chart.tsx";
export type {
  Withdrawal,
  WithdrawalChartProps,
  WithdrawalStep,
} from "./pictures/withdrawal-props.ts";
export { withdrawalTable } from "./pictures/withdrawal-words.ts";
export { VesselPicture, type VesselPictureProps, vesselTable } from "./pictures/vessel-picture.tsx";
export { ClaimVerdictWord } from "./pictures/claim-verdict.tsx";
export { standInSentence, standsIn } from "./page/hazard-words.ts";
export { LeakChart } from "./pictures/leak-chart.tsx";
export type { LeakChartProps, LeakLine } from "./pictures/leak-props.ts";
export { leakTable } from "./pictures/leak-words.ts";
export { SweepChart } from "./pictures/sweep-chart.tsx";
export type { SweepChartProps, SweepGap, SweepLine, SweepPoint } from "./pictures/sweep-props.ts";
export { sweepTable } from "./pictures/sweep-words.ts";
export {
  ChargeBars,
  type ChargeBarsProps,
  chargeTable,
  type PartMass,
} from "./pictures/charge-bars.tsx";
export type { MassShare } from "./pictures/composition.ts";
export type {
  CycleLine,
  LinePoint,
  NamedState,
  PiecedLine,
  StatePoint,
  StateShown,
} from "./pictures/phase-points.ts";
export {
  FamilyBars,
  type FamilyBarsProps,
  type FamilyShare,
  familyTable,
  PartIntervals,
  type PartIntervalsProps,
  type PartShare,
  partTable,
} from "./pictures/contents-chart.tsx";
export {
  blendsSpelled,
  contentsFinding,
  evidenceWords,
  familyShares,
  overallParts,
  PARTS_TITLE,
  runsWords,
} from "./contents-words.ts";
export { DiagnosisView } from "./diagnosis/diagnosis.tsx";
export { DiagnosisBasis } from "./diagnosis/diagnosis-basis.tsx";
export type { DiagnosisUnits } from "./diagnosis/diagnosis-words.ts";
export { diagnosisUnits } from "./diagnosis/diagnosis-units.ts";
export { Answers, type AnswersProps } from "./answers/answers.tsx";
export type { AnswerPlace } from "./answers/reason-words.ts";
export { FairChart, fairChartTable } from "./pictures/fair-chart.tsx";
export { DriftScale, driftVerdict } from "./pictures/drift-scales.tsx";
