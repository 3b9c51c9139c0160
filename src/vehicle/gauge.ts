import type { Circuit } from "./circuit.ts";
import { bubblePressureAt, createIsobar, setPressure } from "./pack/isobar.ts";

/** What a reader sees at the service ports, Pa absolute. */
export interface GaugeReadings {
  /** Suction at the compressor: mean over a cycle. */
  readonly low: number;
  /** Ends between which it swings while a clutch cycles. */
  readonly lowRange?: { readonly from: number; readonly to: number };
  /** Condensing pressure, air included: mean over a cycle. */
  readonly high: number;
  /** While the clutch is engaged. */
  readonly highOn?: number;
}

/** Duty above which a clutch counts as always engaged. */
const always = 0.995;
/** Longest off time over on time whose effect on the head is carried on. */
const longestOff = 2.5;

/**
 * Gauge readings of a solved circuit. While a clutch cycles the mean is nobody's reading: the low
 * side swings between the switch's settings, and the head is higher while engaged.
 *
 * T_on = T_ci + (T_b − T_ci)(1 + β·min(2.5, 1/D − 1)), read as a bubble pressure.
 *
 * Source: common practice; β from plausibility on the road
 */
export function gaugeReadings(circuit: Circuit): GaugeReadings {
  const { sys, D, ps, pc, c } = circuit;
  const high = pc + sys.pnc;
  if (!sys.cycling || D > always) return { low: ps, high };
  const share = 1 + sys.cyclingHead * Math.min(longestOff, 1 / D - 1);
  const iso = createIsobar(c.pack);
  setPressure(iso, pc);
  const engaged = bubblePressureAt(iso, sys.Tci + (iso.Tb - sys.Tci) * share);
  return {
    low: ps,
    lowRange: { from: sys.cycleFrom, to: sys.cycleTo },
    high,
    highOn: Math.max(high, engaged + sys.pnc),
  };
}
