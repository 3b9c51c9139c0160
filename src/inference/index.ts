// Inference: posteriors from priors and likelihoods, their samples, summaries and diagnostics.
// It must never know physics, units, files or clocks. Randomness is seeded by the caller.
export {
  effectiveSamples,
  entropy,
  logSumExp,
  normalisedWeights,
  weightedQuantile,
} from "./weights.ts";
export {
  betweenGaussians,
  conditionedOn,
  type Gaussian,
  logDensity,
  partOf,
  secantMoments,
  squaredDistance,
  withNoise,
} from "./gaussian.ts";
export { type Mixture, separation } from "./separation.ts";
export { choleskyFactor } from "./cholesky.ts";
