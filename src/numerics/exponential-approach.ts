import { fitLine } from "./statistics.ts";

/**
 * y = end + amplitude · exp(−(t − t0)/tau) by least squares, t0 being the first time.
 *
 * For a given tau the model is linear; the search is over ln tau alone (variable projection), first
 * on a grid, then by golden section.
 *
 * Source: Golub & Pereyra 1973 (separable least squares), from memory.
 */
export type ApproachFit =
  | {
      readonly kind: "fitted";
      readonly end: number;
      readonly amplitude: number;
      readonly tau: number;
      readonly t0: number;
      /** Residual sum of squares of the curve and of a constant. */
      readonly sse: number;
      readonly sseConstant: number;
      /** Variance of `end` per unit residual variance, for independent residuals. */
      readonly endVarianceFactor: number;
    }
  /** The curve bends too little, or too fast, for the record to tell an end from a line. */
  | { readonly kind: "undetermined"; readonly reason: "too-few" | "no-bend" | "singular" };

interface Projection {
  readonly end: number;
  readonly amplitude: number;
  readonly sse: number;
}

const goldenSteps = 40;
const gridPoints = 24;

/** @throws RangeError for unequal lengths. */
export function fitApproach(t: ArrayLike<number>, y: ArrayLike<number>): ApproachFit {
  const n = t.length;
  if (n !== y.length) throw new RangeError(`t has ${n} points, y has ${y.length}`);
  if (n < 8) return { kind: "undetermined", reason: "too-few" };
  const span = t[n - 1] - t[0];
  const lnLow = Math.log((2 * span) / n);
  // Beyond half the record's length an end is an extrapolation, not a measurement.
  const lnHigh = Math.log(span / 2);
  const lnTau = bestLnTau(t, y, lnLow, lnHigh);
  if (lnTau > lnHigh - 1e-3 || lnTau < lnLow + 1e-3) {
    return { kind: "undetermined", reason: "no-bend" };
  }
  const tau = Math.exp(lnTau);
  const { end, amplitude, sse } = project(t, y, tau);
  const factor = endVarianceFactor(t, amplitude, tau);
  if (factor === undefined) return { kind: "undetermined", reason: "singular" };
  const sseConstant = constantSse(y);
  return {
    kind: "fitted",
    end,
    amplitude,
    tau,
    t0: t[0],
    sse,
    sseConstant,
    endVarianceFactor: factor,
  };
}

function bestLnTau(t: ArrayLike<number>, y: ArrayLike<number>, low: number, high: number): number {
  const cost = (lnTau: number) => project(t, y, Math.exp(lnTau)).sse;
  const step = (high - low) / (gridPoints - 1);
  let best = 0;
  let bestCost = Infinity;
  for (let i = 0; i < gridPoints; i++) {
    const c = cost(low + i * step);
    if (c < bestCost) [best, bestCost] = [i, c];
  }
  let a = low + Math.max(0, best - 1) * step;
  let b = low + Math.min(gridPoints - 1, best + 1) * step;
  const ratio = (Math.sqrt(5) - 1) / 2;
  let x1 = b - ratio * (b - a);
  let x2 = a + ratio * (b - a);
  let f1 = cost(x1);
  let f2 = cost(x2);
  for (let i = 0; i < goldenSteps && b - a > 1e-6; i++) {
    if (f1 < f2) {
      [b, x2, f2] = [x2, x1, f1];
      x1 = b - ratio * (b - a);
      f1 = cost(x1);
    } else {
      [a, x1, f1] = [x1, x2, f2];
      x2 = a + ratio * (b - a);
      f2 = cost(x2);
    }
  }
  return (a + b) / 2;
}

/** End and amplitude for one tau: a line in exp(−t/tau). */
function project(t: ArrayLike<number>, y: ArrayLike<number>, tau: number): Projection {
  const decay = new Float64Array(t.length);
  for (let i = 0; i < t.length; i++) decay[i] = Math.exp(-(t[i] - t[0]) / tau);
  const line = fitLine(decay, y);
  return {
    end: line.mean - line.slope * line.tMean,
    amplitude: line.slope,
    sse: line.residualSd ** 2 * (t.length - 2),
  };
}

function constantSse(y: ArrayLike<number>): number {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < y.length; i++) {
    sum += y[i];
    squares += (y[i] - y[0]) ** 2;
  }
  return squares - y.length * (sum / y.length - y[0]) ** 2;
}

/** First diagonal element of (JᵀJ)⁻¹ with columns 1, e, ∂/∂ ln tau; undefined when singular. */
function endVarianceFactor(
  t: ArrayLike<number>,
  amplitude: number,
  tau: number,
): number | undefined {
  let [s1, s2, s11, s12, s22] = [0, 0, 0, 0, 0];
  const n = t.length;
  for (let i = 0; i < n; i++) {
    const x = (t[i] - t[0]) / tau;
    const e = Math.exp(-x);
    const g = amplitude * x * e;
    s1 += e;
    s2 += g;
    s11 += e * e;
    s12 += e * g;
    s22 += g * g;
  }
  const minor = s11 * s22 - s12 * s12;
  const determinant = n * minor - s1 * (s1 * s22 - s12 * s2) + s2 * (s1 * s12 - s11 * s2);
  if (!(minor > 0) || !(determinant > 1e-12 * n * minor)) return undefined;
  return minor / determinant;
}
