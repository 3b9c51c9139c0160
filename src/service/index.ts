// What service work needs to know: instrument classes, local air, static pressure, vacuum, published running tables,
// facts of flame and climate, what vessels of fluids and blends do, lines of charts.
// Must never know: units, logs, screens. Basis: SI, absolute pressure unless named gauge, mass in kg.
export {
  type Accuracy,
  combined,
  type Contribution,
  COVERAGE,
  type InstrumentUncertainty,
  instrumentUncertainty,
  limitOfError,
  ofResolution,
  rectangular,
} from "./accuracy.ts";
export {
  blendAtPH,
  blendAtPQuality,
  blendAtPS,
  blendAtTQuality,
  blendBubble,
  blendDew,
  type BlendMaterial,
} from "./bulk/blend-states.ts";
export type { BulkFailure, BulkQuantity } from "./bulk/bulk-failure.ts";
export { type Bulk, bulkAtTP, bulkAtTRho, type BulkOutcome, type BulkPhase } from "./bulk/bulk.ts";
export { type Material, materialOf } from "./bulk/material.ts";
export {
  type Withdrawal,
  type WithdrawalPoint,
  type WithdrawalSeries,
  withdraw,
} from "./bulk/withdraw.ts";
export { pressureDoubt, temperatureDoubt } from "./bulk/pair-doubt.ts";
export {
  type Equivalence,
  equivalenceOf,
  heatOfEvaporation,
  largestHeat,
} from "./claims/equivalence.ts";
export { type ReferenceCycle, referenceCycle } from "./claims/reference-cycle.ts";
export { phaseDiagram } from "./diagram/diagram.ts";
export type { DiagramKind, PhaseDiagram } from "./diagram/diagram-shape.ts";
export type { ChartLine, ChartPoint, Gap } from "./diagram/line.ts";
export {
  type AirState,
  fractionOf,
  overAir,
  OXYGEN_DEPRIVATION,
  poisonsInFlame,
} from "./leak/air-limits.ts";
export {
  type Escape,
  type LeakCase,
  type LeakHazard,
  leakHazard,
  type ZoneHazard,
} from "./leak/hazard.ts";
export { type LeakSpace, QUARTER } from "./leak/leak.ts";
export {
  CABIN_HEIGHT,
  LAYER_HEIGHT,
  perHour,
  type Ventilation,
  ventilations,
} from "./leak/ventilation.ts";
export {
  conductance,
  type Hose as VacuumHose,
  molecularConductance,
  viscousConductance,
} from "./evacuation/conductance.ts";
export { airLeft, type Depth, depthNeeded } from "./evacuation/depth.ts";
export {
  laminarScale,
  throughputOf,
  yearlyLoss,
  type YearlyLoss,
  yearlyMass,
} from "./evacuation/leak-scale.ts";
export { type PumpDown, pumpDown, type PumpDownLimit } from "./evacuation/pump-down.ts";
export { type LocalAir, localAir, WEATHER_U } from "./local-air.ts";
export {
  type BandVerdict,
  cyclingSwitchPosition,
  operatingCaution,
  operatingConditions,
  operatingPressure,
  type Range,
  type RunningPressure,
  type SettingPosition,
  type SwitchComparison,
  type TableVerdict,
  ventTemperature,
} from "./operating-table.ts";
export {
  lookAlikes,
  type NoSaturation,
  type StaticCheck,
  staticCheck,
  type StaticReading,
} from "./static-pressure.ts";
export { staticMeanings, type StaticMeaning, type StaticVerdict } from "./static-data.ts";
export {
  type CylinderLimit,
  cylinderLimit,
  type FillRule,
  type OldRule,
} from "./recovery/cylinder-limit.ts";
export { boilingLiquid, dewVapour } from "./recovery/liquid-density.ts";
export { type AirCheck, airCheck, type AirVerdict } from "./recovery/non-condensable.ts";
export { recoveryNumber } from "./recovery/recovery-facts.ts";
export {
  type LiquidPossible,
  type Reached,
  type RecoveredShare,
  recoveredShare,
  requiredPressure,
  type ResidualVapour,
  residualVapour,
  vacuumReached,
} from "./recovery/residual.ts";
export { type RestPoint, type RestSeries, restSeries } from "./charging/at-rest.ts";
export {
  type CanPlan,
  canPlan,
  type Hose,
  type HoseContents,
  hoseContents,
} from "./charging/can-plan.ts";
export { chargingNumber } from "./charging/charging-facts.ts";
export {
  type EqualFill,
  equalLevel,
  equalLiquidVolume,
  type EqualMass,
} from "./charging/liquid-equivalent.ts";
export { type MassTolerance, massTolerance, scaleSettles } from "./charging/mass-tolerance.ts";
export { type PhaseAdvice, phaseAdvice } from "./charging/phase-advice.ts";
export { climateOf, type ClimatePart, type ClimateSum, ozoneOf } from "./substances/climate.ts";
export { molarMass, type Part, toMass, toMoles } from "./substances/composition.ts";
export {
  type Amount,
  type Fact,
  type Interval,
  intervalOf,
  type SafetyClass,
  safetyClasses,
  type Trust,
  trusts,
  usable,
} from "./substances/fact.ts";
export {
  type Flammability,
  flammabilityOf,
  type Limits,
  type UntestedReason,
} from "./substances/flammability.ts";
export type { FlammabilityLimit } from "./substances/le-chatelier.ts";
export { type NamedBlend, ratedBlends } from "./substances/named-blends.ts";
export {
  type Concentration,
  type Edition,
  editions,
  type SubstanceFacts,
  substanceFacts,
} from "./substances/substance-facts.ts";
export {
  type DepthVerdict,
  VACUUM_TARGETS,
  type VacuumCheck,
  vacuumCheck,
  type VacuumVerdict,
} from "./vacuum.ts";
