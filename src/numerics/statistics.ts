/**
 * Means, lines and autocorrelation of one record of samples.
 *
 * Source: JCGM 100 (GUM) 4.2, H.3 (line); Sokal 1997 (windowed autocorrelation time), both from memory.
 */

export interface Line {
  /** Mean of t: the line is mean + slope (t − tMean). */
  readonly tMean: number;
  readonly mean: number;
  readonly slope: number;
  /** Standard deviation of the residuals, n − 2 degrees of freedom. */
  readonly residualSd: number;
  /** Standard uncertainty of the slope if the residuals were independent. */
  readonly uSlopeIndependent: number;
}

/** Arithmetic mean. @throws RangeError for an empty record. */
export function mean(values: ArrayLike<number>): number {
  if (values.length === 0) throw new RangeError("mean of no values");
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum / values.length;
}

/** Sample standard deviation, n − 1. @throws RangeError below two values. */
export function standardDeviation(values: ArrayLike<number>): number {
  if (values.length < 2) throw new RangeError(`standard deviation of ${values.length} values`);
  const m = mean(values);
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += (values[i] - m) ** 2;
  return Math.sqrt(sum / (values.length - 1));
}

/** Middle value; the mean of the middle two for an even count; NaN when one is. @throws RangeError when empty. */
export function median(values: ArrayLike<number>): number {
  if (values.length === 0) throw new RangeError("median of no values");
  const work = new Float64Array(values);
  if (work.some(Number.isNaN)) return NaN;
  const half = work.length >> 1;
  const upper = placed(work, half);
  if (work.length % 2 === 1) return upper;
  let lower = work[0];
  for (let i = 1; i < half; i++) if (work[i] > lower) lower = work[i];
  return (lower + upper) / 2;
}

/**
 * Puts into its place the value that sorting would put at `k`, smaller or equal ones before it, and
 * returns it. Source: Hoare 1961 (Algorithm 65, Find), from memory.
 */
function placed(work: Float64Array, k: number): number {
  let low = 0;
  let high = work.length - 1;
  while (low < high) {
    const pivot = work[k];
    let i = low;
    let j = high;
    while (i <= j) {
      while (work[i] < pivot) i++;
      while (pivot < work[j]) j--;
      if (i > j) break;
      const moved = work[i];
      work[i++] = work[j];
      work[j--] = moved;
    }
    if (j < k) low = i;
    if (k < i) high = j;
  }
  return work[k];
}

/**
 * Ordinary least-squares line through (t, y).
 *
 * @throws RangeError below three points, for unequal lengths, or when all t are equal.
 */
export function fitLine(t: ArrayLike<number>, y: ArrayLike<number>): Line {
  const n = t.length;
  if (n !== y.length) throw new RangeError(`t has ${n} points, y has ${y.length}`);
  if (n < 3) throw new RangeError(`a line needs three points, got ${n}`);
  const tMean = mean(t);
  const yMean = mean(y);
  let stt = 0;
  let sty = 0;
  for (let i = 0; i < n; i++) {
    stt += (t[i] - tMean) ** 2;
    sty += (t[i] - tMean) * (y[i] - yMean);
  }
  if (stt === 0) throw new RangeError("a line needs two different times");
  const slope = sty / stt;
  let sse = 0;
  for (let i = 0; i < n; i++) sse += (y[i] - yMean - slope * (t[i] - tMean)) ** 2;
  const residualSd = Math.sqrt(sse / (n - 2));
  return { tMean, mean: yMean, slope, residualSd, uSlopeIndependent: residualSd / Math.sqrt(stt) };
}

/** Autocovariance at `lag` with divisor n, about zero: the caller hands over residuals. */
export function autocovariance(residuals: ArrayLike<number>, lag: number): number {
  let sum = 0;
  for (let i = lag; i < residuals.length; i++) sum += residuals[i] * residuals[i - lag];
  return sum / residuals.length;
}

/**
 * Integrated autocorrelation time 1 + 2 Σ ρ(k) in samples, at least 1.
 *
 * The sum stops at the first lag beyond `windowFactor` times the running value: later lags are
 * noise. Removing `fitted` parameters first makes residuals look less correlated than the noise is;
 * that bias, −(fitted · time)/n per lag to first order, is given back.
 *
 * @param residuals  Residuals about a fit, evenly spaced, n >= 4.
 * @param fitted     Parameters that the fit used up.
 */
export function autocorrelationTime(residuals: ArrayLike<number>, fitted = 1): number {
  const n = residuals.length;
  const variance = autocovariance(residuals, 0);
  if (n < 4 || variance === 0) return 1;
  const windowFactor = 5;
  let raw = 1;
  let lag = 1;
  for (; lag < n / 2; lag++) {
    raw += (2 * autocovariance(residuals, lag)) / variance;
    if (lag >= windowFactor * Math.max(raw, 1)) break;
  }
  const time = Math.max(raw, 1);
  // Each lag inside the window lost about fitted·time/n; solve time = raw + 2·lag·fitted·time/n for time.
  const lost = Math.min(0.5, (2 * lag * fitted) / n);
  return lag >= n / 2 ? n / 4 : time / (1 - lost);
}

/** Independent samples that n correlated ones are worth, between 1 and n. */
export function effectiveSampleSize(n: number, autocorrelation: number): number {
  return Math.min(n, Math.max(1, n / autocorrelation));
}
