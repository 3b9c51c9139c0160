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
