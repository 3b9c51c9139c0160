// Every computation offered to a user, defined once: name, schemas, function, cautions, sources.
// Must never know: doors, stores, screens. Basis: SI, absolute pressure, per kg; texts with units are read here.
export type {
  Answer,
  FullAnswer,
  InvalidInput,
  Issue,
  NoAnswer,
  NoAnswerReason,
} from "./answer.ts";
export { estimateIn } from "./blend-answer.ts";
export { calculations, compute, findCalculation } from "./compute.ts";
export type { CombinedResult } from "./combine-trials.ts";
export type { DiagnosisResult } from "./diagnose-answer.ts";
export type { Calculation } from "./definition.ts";
export { findFluid } from "./fluid-field.ts";
export { type VentilationChoice, ventilationChoices } from "./leak-fields.ts";
export { FULLEST } from "./vessel-fields.ts";
export {
  type ParameterGroup,
  type ParameterView,
  type PresetView,
  vehicleParameters,
  vehiclePresets,
} from "./vehicle-parameters.ts";
export { blendNames, fluidNames } from "./substance-names.ts";
export { identifyInput } from "./contents-input.ts";
export type { IdentifyResult } from "./identify.ts";
