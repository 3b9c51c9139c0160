// Inference: posteriors from priors and likelihoods, their samples, summaries and diagnostics.
// It must never know physics, units, files or clocks. Randomness is seeded by the caller.
export {
  effectiveSamples,
  entropy,
  logSumExp,
  normalisedWeights,
  weightedQuantile,
} from "./weights.ts";
export { linearMarginal, type Marginal, type NormalPrior } from "./linear-marginal.ts";
export { type LognormalPart, mixtureQuantile, normalShare } from "./lognormal-mixture.ts";
export {
  type LognormalPrior,
  positivePosterior,
  type PositivePosterior,
} from "./positive-coefficients.ts";
