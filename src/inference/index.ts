// Inference: posteriors from priors and likelihoods, their samples, summaries and diagnostics.
// It must never know physics, units, files or clocks. Randomness is seeded by the caller.
export {
  cellQuantile,
  effectiveSamples,
  entropy,
  logSumExp,
  normalisedWeights,
  weightedQuantile,
} from "./weights.ts";
export { type BoxOptions, type CubeSamples, sampleCube } from "./shrinking-box.ts";
export { expectedInformation, type ForeseenOutcomes } from "./expected-information.ts";
export { logNormal, logNormalVector } from "./normal-vector.ts";
export { quasiRandomPoint, quasiRandomSteps } from "./quasi-random.ts";
export {
  calibrationError,
  type Forecast,
  type ReliabilityRow,
  reliabilityTable,
} from "./reliability.ts";
export {
  cubicBasis,
  cubicTerms,
  evaluateCubic,
  fitCubics,
  simplexLattice,
} from "./simplex-polynomial.ts";
export { linearMarginal, type Marginal, type NormalPrior } from "./linear-marginal.ts";
export { type LognormalPart, lognormalMixtureQuantile } from "./lognormal-mixture.ts";
export {
  type LognormalPrior,
  positivePosterior,
  type PositivePosterior,
} from "./positive-coefficients.ts";
export {
  createLeastSquaresWork,
  fitLeastSquares,
  type LeastSquaresFit,
  type LeastSquaresProblem,
  type LeastSquaresWork,
} from "./least-squares.ts";
export {
  mixtureCdf,
  mixtureQuantile,
  normalCdf,
  type NormalMixture,
  normalQuantile,
} from "./normal-distribution.ts";
export {
  type ErrorGroup,
  type ErrorsGivenFit,
  errorsGivenFit,
  type FitGain,
  type Proposal,
  proposalAround,
  weightedError,
  weightedVariance,
} from "./errors-given-fit.ts";
export {
  chiSquareTail,
  coverageOf,
  type RankStatistics,
  rankStatistics,
} from "./rank-statistics.ts";
export { type RandomEffects, randomEffects, type StudyEffect } from "./random-effects.ts";
export { studentHalfWidth } from "./student-t.ts";
export {
  betweenGaussians,
  conditionedOn,
  type Gaussian,
  logDensity,
  partOf,
  secantMoments,
  secantsOf,
  squaredDistance,
} from "./gaussian.ts";
export { type Mixture, separation } from "./separation.ts";
export { choleskyFactor } from "./cholesky.ts";
export { throughPoints } from "./through-points.ts";
