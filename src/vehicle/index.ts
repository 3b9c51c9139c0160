// Vehicle: what an A/C system should do in steady running, on any fluid or blend, and with faults.
// It must never know readings, trials, units as typed, screens. Basis: SI, kg, absolute pressure.
export type { Conditions, Faults, Fill, ReturnAir } from "./case.ts";
export { sound } from "./case.ts";
export {
  applies,
  bulbFluids,
  type Control,
  type Expansion,
  type ParameterIssue,
  parameterInfo,
  type ParameterName,
  parameterNames,
  plausibleRange,
  type PresetName,
  presetNames,
  presetVehicle,
  refineVehicle,
  type Vehicle,
  type VehicleOutcome,
} from "./parameters.ts";
export { type Composition, pureComposition } from "./pack/composition.ts";
export { buildPack, propertyPack } from "./pack/build-pack.ts";
export type { NoPack, Pack, PackOutcome } from "./pack/pack.ts";
export {
  createRunWork,
  type CyclePoint,
  type Running,
  runVehicle,
  type RunWork,
  type VehicleCase,
  type VehicleRun,
} from "./run.ts";
export type { Regime } from "./circuit.ts";
export type { ChargeByPart } from "./inventory.ts";
export type { Note } from "./notes.ts";
export type { Start, StopReason, UnresolvedReason } from "./solve.ts";
export { type Band, type BandLimits, bandOf, type BandQuantity, bandQuantities } from "./band.ts";
export { sizedVehicle, sizingLimits } from "./sizing.ts";
export {
  chargePlateau,
  type ChargePlateau,
  type NoPlateau,
  optimumCharge,
  type OptimumCharge,
  type UnchargedCase,
} from "./charge-plateau.ts";
export { restingPressure, type Saturation, saturationOf } from "./resting.ts";
