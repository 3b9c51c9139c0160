// Fluids: equations of state of pure fluids and mixtures, their saturation, states and flashes.
// Basis: molar, SI: K, Pa (absolute), mol/m³, J/mol, J/(mol K); w in m/s, M in kg/mol.
// Zero of h and s: IIR (200 kJ/kg, 1 kJ/(kg K), saturated liquid at 273.15 K) where that exists.
// It must never know vehicles, readings, units as typed, files at run time or the network.
export { fluidIds, isFluidId } from "./fluid-id.ts";
export type { FluidId } from "./fluid-id.ts";
export { fluid, fluidInfo } from "./fluid.ts";
export type { FluidInfo, PureFluid } from "./pure-fluid.ts";
export { saturatedPhases, saturationAtP, saturationAtT } from "./saturation.ts";
export type { PhaseProperties, Saturated, Saturation, SaturationRange } from "./saturation.ts";
export { statePQ, stateTP, stateTQ, stateTRho } from "./state.ts";
export type { Phase, Quantity, State, StateFailure, StateOutcome } from "./state.ts";
export { statePH, statePS } from "./caloric-flash.ts";

// Mixtures of 1 to 8 fluids: liquid and vapour, molar basis, mole fractions in the mixture's order.
export { mixture, mixtureR } from "./mixture/mixture.ts";
export type { CombiningRule, Mixture, MixtureLimits, PairEstimate } from "./mixture/mixture.ts";
export { blendByMass, blendInfo, namedBlends } from "./mixture/blends.ts";
export type { BlendInfo, BlendShare } from "./mixture/blends.ts";
export { createMixtureWork } from "./mixture/mixture-work.ts";
export type { MixtureWork } from "./mixture/mixture-work.ts";
export type {
  MixFailure,
  MixOutcome,
  MixPhase,
  MixQuantity,
  MixState,
} from "./mixture/mix-state.ts";
export {
  bubbleAtP,
  bubbleAtT,
  dewAtP,
  dewAtT,
  mixStatePQ,
  mixStateTQ,
} from "./mixture/saturation-states.ts";
export { boilingLine } from "./mixture/boiling-line.ts";
export { vapourLine } from "./mixture/vapour-line.ts";
export type { VapourPoint } from "./mixture/vapour-line.ts";
export { mixStatePH, mixStatePS, mixStateTP, mixStateTRho } from "./mixture/flash-states.ts";

// Kernels for hot loops: the caller owns the scratch, nothing is allocated.
export { createStateWork } from "./state-work.ts";
export type { StateWork } from "./state-work.ts";
export {
  CP,
  CV,
  DP_DRHO,
  DP_DT,
  evaluateProperties,
  H,
  MW2,
  P,
  propertiesAtDensity,
  S,
  U,
} from "./properties.ts";
export { solveDensity } from "./density.ts";
export { parseResidual } from "./fluid-file.ts";
export { compileResidual, createResidualWork } from "./residual-model.ts";
export type { ResidualModel, ResidualWork } from "./residual-model.ts";
export {
  A00,
  A01,
  A02,
  A03,
  A10,
  A11,
  A20,
  evaluateAll,
  evaluateInDelta,
  setTau,
} from "./residual-kernel.ts";
