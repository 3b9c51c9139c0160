import {
  type ApproachFit,
  autocorrelationTime,
  effectiveSampleSize,
  fitApproach,
  fitLine,
  mean,
} from "../../numerics/index.ts";
import { cyclingOf } from "./cycling.ts";
import type { Settlement } from "./view.ts";

/**
 * Where a quantity stands at the end of an interval, from the tail of its trace.
 *
 * The value is the mean of the last five minutes less what an exponential approach still had to go;
 * that correction counts as uncertain by its own size. Scatter is turned into the uncertainty of the
 * mean through the record's autocorrelation. The instrument's own limit is no part of `u` here.
 *
 * Source: GUM 4.2 (mean), 4.3.7 (rectangular); criterion and approach: docs/models/settled-values.md.
 * Checked: settle.test.ts (coverage by simulation with known truth).
 */
export interface SettleOptions {
  /** Largest slope, SI per second, that still counts as settled; absent: any. */
  readonly slopeLimit?: number;
  /** May the quantity swing with a cycling clutch? */
  readonly mayCycle?: boolean;
}

/** The tail that is judged, s ("last 5 min"), and how much of the record may carry the approach. */
export const windowSeconds = 300;
const approachSeconds = 900;
const fewest = 20;
/** Variance ratio, for correlated samples, beyond which a bend is taken as real (F, 2 and many, 99.9 %). */
const bendBeyond = 7;

interface Record {
  readonly t: Float64Array;
  readonly y: Float64Array;
}

/** @throws RangeError for unequal lengths. @param t seconds, not falling. @param y SI. */
export function settle(t: Float64Array, y: Float64Array, options: SettleOptions = {}): Settlement {
  if (t.length !== y.length) throw new RangeError(`t has ${t.length} points, y has ${y.length}`);
  const n = t.length;
  const seconds = n === 0 ? 0 : at(t, n - 1) - at(t, 0);
  const tail = since({ t, y }, windowSeconds);
  // One sample less than the window is what an interval of exactly that length holds.
  const spacing = n > 1 ? seconds / (n - 1) : 0;
  if (tail.t.length < fewest || seconds + spacing < windowSeconds) {
    return { kind: "too-short", n, seconds, neededSeconds: windowSeconds };
  }
  const cycling = options.mayCycle ? cyclingOf(tail.t, tail.y) : undefined;
  return cycling ?? standing({ t, y }, tail, options);
}

function standing(record: Record, tail: Record, { slopeLimit }: SettleOptions): Settlement {
  const line = fitLine(tail.t, tail.y);
  const { residuals, fitted, approach } = noiseOf(since(record, approachSeconds), tail);
  const time = autocorrelationTime(residuals, fitted);
  const nEff = effectiveSampleSize(tail.t.length, time);
  const uNoise = uMean(residuals, fitted, time, nEff);
  const uSlope = line.uSlopeIndependent * Math.sqrt(time);
  const remaining = approach ? mean(tail.t.map((x) => toGo(approach, x))) : 0;
  // Without a bend that can be trusted, a slope that is more than scatter may go on for half a window.
  const drift =
    approach || Math.abs(line.slope) < 2 * uSlope ? remaining : (line.slope * windowSeconds) / 2;
  const value = line.mean - remaining;
  const u = Math.hypot(uNoise, drift / Math.sqrt(3));
  const moving = slopeLimit !== undefined && Math.abs(line.slope) > slopeLimit;
  const settled = {
    kind: moving ? ("still-moving" as const) : ("settled" as const),
    value,
    u,
    slope: { value: line.slope, u: uSlope },
    window: {
      fromSeconds: at(tail.t, 0),
      toSeconds: at(tail.t, tail.t.length - 1),
      n: tail.t.length,
      nEff,
    },
  };
  if (!approach) return settled;
  const variance = approach.sse / Math.max(1, residuals.length - fitted);
  const uEnd = Math.sqrt(variance * approach.endVarianceFactor * time);
  return { ...settled, end: { value: approach.end, u: uEnd, tau: approach.tau } };
}

type Approach = Extract<ApproachFit, { kind: "fitted" }>;

const toGo = ({ amplitude, t0, tau }: Approach, t: number): number =>
  amplitude * Math.exp(-(t - t0) / tau);

/** Scatter about the best description of the record: an approach when it bends, else a line. */
function noiseOf(
  record: Record,
  tail: Record,
): {
  readonly residuals: Float64Array;
  readonly fitted: number;
  readonly approach: Approach | undefined;
} {
  const fit = fitApproach(record.t, record.y);
  if (fit.kind === "fitted") {
    const residuals = record.y.map((y, i) => y - fit.end - toGo(fit, at(record.t, i)));
    const time = autocorrelationTime(residuals, 3);
    const explained = (fit.sseConstant - fit.sse) / 2;
    const perSample = (fit.sse * time) / (residuals.length - 3);
    if (explained > bendBeyond * perSample) return { residuals, fitted: 3, approach: fit };
  }
  const line = fitLine(tail.t, tail.y);
  const residuals = tail.y.map((y, i) => y - line.mean - line.slope * (at(tail.t, i) - line.tMean));
  return { residuals, fitted: 2, approach: undefined };
}

/** Standard uncertainty of the window's mean, widened for an estimated scatter (Student's t variance). */
function uMean(residuals: Float64Array, fitted: number, time: number, nEff: number): number {
  let sum = 0;
  for (const r of residuals) sum += r * r;
  const sd = Math.sqrt(sum / Math.max(1, residuals.length - fitted * time));
  const freedom = Math.max(3, effectiveSampleSize(residuals.length, time) - fitted);
  const widened = Math.sqrt(freedom / Math.max(1, freedom - 2));
  return (sd / Math.sqrt(nEff)) * widened;
}

function since({ t, y }: Record, seconds: number): Record {
  const last = t.length === 0 ? 0 : at(t, t.length - 1);
  const first = t.findIndex((x) => x > last - seconds);
  return { t: t.subarray(Math.max(0, first)), y: y.subarray(Math.max(0, first)) };
}

function at(values: Float64Array, index: number): number {
  const value = values[index];
  if (value === undefined) throw new RangeError(`no sample ${index} of ${values.length}`);
  return value;
}
