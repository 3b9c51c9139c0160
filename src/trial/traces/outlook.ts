import { autocorrelationTime, fitApproach } from "../../numerics/index.ts";
import type { ReadingQuantity } from "../events.ts";
import { settleOptions } from "./criteria.ts";
import { settle, windowSeconds } from "./settle.ts";
import type { Settlement } from "./view.ts";

/**
 * Where a quantity that is being recorded stands, and where it is going. The forecast is for the person
 * who waits; a run's values come from what was recorded.
 */
export interface Outlook {
  readonly settlement: Settlement;
  /** The last value, SI. */
  readonly now: number;
  /** Where an exponential approach ends, when the record bends enough to tell; SI. */
  readonly end?: { readonly value: number; readonly u: number };
  /** s until it should count as settled; absent when the record cannot tell. 0 when it does already. */
  readonly inSeconds?: number;
}

/** Least that a forecast is made from: a minute of twenty samples. */
const leastSeconds = 60;
const fewest = 20;
/** Tail that carries the approach, s: what came before was another condition or another start. */
const approachSeconds = 900;
/** Improvement over a constant, in correlated samples, beyond which a bend is real (as in settle.ts). */
const bendBeyond = 7;

/**
 * @param t  s, not falling.  @param y  SI, as long as `t`, at least one value.
 * @throws RangeError when there is no sample.
 *
 * Method: the criterion is a slope over the last five minutes (docs/models/settled-values.md). An
 * exponential approach A exp(-t/tau) has the mean slope A exp(-t/tau) (exp(300/tau) - 1) / 300 over the
 * window that ends at t; the time is that at which it falls to the limit.
 * Checked: outlook.test.ts.
 */
export function outlookOf(t: Float64Array, y: Float64Array, quantity: ReadingQuantity): Outlook {
  const now = y.at(-1);
  const last = t.at(-1);
  if (now === undefined || last === undefined) throw new RangeError("an outlook needs a sample");
  const options = settleOptions(quantity);
  const settlement = settle(t, y, options);
  if (settlement.kind === "settled" || settlement.kind === "cycling") {
    const end = settlement.kind === "settled" ? settlement.end : undefined;
    return { settlement, now, inSeconds: 0, ...(end && { end: { value: end.value, u: end.u } }) };
  }
  const toFill = Math.max(0, windowSeconds - (last - (t[0] ?? last)));
  const approach = approachOf(t, y);
  if (!approach) {
    // A quantity without a limit of its own is settled once the window is full.
    const known = settlement.kind === "too-short" && options.slopeLimit === undefined;
    return { settlement, now, ...(known && { inSeconds: toFill }) };
  }
  const { end, u, toGo, tau } = approach;
  const inSeconds = Math.max(toFill, timeToSlope(toGo, tau, options.slopeLimit));
  return { settlement, now, end: { value: end, u }, inSeconds };
}

function timeToSlope(toGo: number, tau: number, limit: number | undefined): number {
  if (limit === undefined || toGo === 0) return 0;
  const slope = (Math.abs(toGo) * Math.expm1(windowSeconds / tau)) / windowSeconds;
  return Math.max(0, tau * Math.log(slope / limit));
}

/** The approach in the tail of the record, when it bends more than scatter does. */
function approachOf(allT: Float64Array, allY: Float64Array) {
  const last = allT.at(-1) ?? 0;
  const from = allT.findIndex((x) => x > last - approachSeconds);
  const [t, y] = [allT.subarray(from), allY.subarray(from)];
  const seconds = last - (t[0] ?? last);
  if (t.length < fewest || seconds < leastSeconds) return undefined;
  const fit = fitApproach(t, y);
  if (fit.kind !== "fitted") return undefined;
  const { end, amplitude, t0, tau, sse, sseConstant, endVarianceFactor } = fit;
  const residuals = y.map(
    (value, i) => value - end - amplitude * Math.exp(-((t[i] ?? t0) - t0) / tau),
  );
  const time = autocorrelationTime(residuals, 3);
  const freedom = Math.max(1, residuals.length - 3);
  if ((sseConstant - sse) / 2 <= (bendBeyond * sse * time) / freedom) return undefined;
  const u = Math.sqrt((sse / freedom) * endVarianceFactor * time);
  return { end, u, tau, toGo: amplitude * Math.exp(-(last - t0) / tau) };
}
