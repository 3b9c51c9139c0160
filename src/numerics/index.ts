// Numerics: roots, Chebyshev expansions, statistics and random numbers as functions of plain numbers.
// It must never know physics, units, files or clocks. Randomness is seeded by the caller.
export { chebyshevFit, chebyshevNodes, clenshaw } from "./chebyshev.ts";
export { createRandom } from "./random.ts";
export type { Random } from "./random.ts";
export { normal } from "./normal.ts";
export { findRoot } from "./find-root.ts";
export type { RootFailure, RootOptions, RootOutcome } from "./find-root.ts";
export { newtonInBracket } from "./newton-in-bracket.ts";
export { solveLinear } from "./solve-linear.ts";
export { evaluateAt, fitPiecewise, intervalOf } from "./piecewise-chebyshev.ts";
export type { PiecewiseChebyshev, PiecewiseOptions } from "./piecewise-chebyshev.ts";
export {
  autocorrelationTime,
  autocovariance,
  effectiveSampleSize,
  fitLine,
  mean,
  median,
  standardDeviation,
} from "./statistics.ts";
export type { Line } from "./statistics.ts";
export { fitApproach } from "./exponential-approach.ts";
export type { ApproachFit } from "./exponential-approach.ts";
