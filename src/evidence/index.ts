// Evidence: what readings say about a vehicle, a can and a fault: calibration, identification, fair comparison.
// It must never know trials, logs, units as typed, screens. Basis: SI, kg, absolute pressure.
export type { Contribution } from "./contents/contributions.ts";
export type { PartInterval } from "./contents/compositions.ts";
export type { Evidence } from "./contents/evidence.ts";
export { type Family, type FamilyKind, families, findFamily } from "./contents/families.ts";
export type { NextMeasurement } from "./contents/foresee.ts";
export type { ContentHazard } from "./contents/hazards.ts";
export { type Contents, identify, type IdentifyOptions } from "./contents/identify.ts";
export {
  type JudgedFamily,
  type Posterior,
  posteriorOf,
  type PosteriorOptions,
} from "./contents/posterior.ts";
export { CONTENTS_T } from "./contents/surface.ts";
