import { waterSaturation } from "../../air/index.ts";
import { conductance, type Hose } from "./conductance.ts";

export interface Pump {
  /** Displacement in free air, m3/s. */
  readonly speed: number;
  /** Deepest pressure at its own inlet, Pa. */
  readonly ultimate: number;
}

export interface PumpDownCase {
  /** m3 */
  readonly volume: number;
  readonly pump: Pump;
  /** Hoses side by side from the system to the pump; none means that the pump sits at the system. */
  readonly hoses: readonly Hose[];
  /** Absolute pressures, Pa, `from` above `to`. */
  readonly from: number;
  readonly to: number;
  /** K */
  readonly T: number;
  /** Liquid water inside, kg. */
  readonly water: number;
}

export type PumpDownLimit = "pump" | "hose" | "water";

export interface PumpDownPoint {
  /** s */
  readonly t: number;
  /** At the system, Pa. */
  readonly p: number;
  /** At the pump's inlet, Pa. */
  readonly pPump: number;
  readonly limit: PumpDownLimit;
}

export type PumpDown =
  | {
      readonly kind: "reached";
      readonly series: readonly PumpDownPoint[];
      /** s */
      readonly time: number;
      /** Seconds in which each held things up most. */
      readonly spent: Readonly<Record<PumpDownLimit, number>>;
    }
  /** The pump's own ultimate stands above the wanted pressure. */
  | { readonly kind: "too-deep"; readonly deepest: number };

const R = 8.314462618;
const M_WATER = 0.01801528;
const STEPS = 240;

/** Speed that the system sees, m3/s, and the pressure at the pump. */
function flowAt(
  { pump, hoses, T }: Pick<PumpDownCase, "pump" | "hoses" | "T">,
  p: number,
): { readonly speed: number; readonly pPump: number } {
  if (hoses.length === 0) return { speed: pump.speed * (1 - pump.ultimate / p), pPump: p };
  // The throughput through the hoses falls with the pump's pressure, that of the pump rises: they meet once.
  let low = pump.ultimate;
  let high = p;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (throughHoses(hoses, p, middle, T) > pump.speed * (middle - pump.ultimate)) low = middle;
    else high = middle;
  }
  const pPump = (low + high) / 2;
  return { speed: (pump.speed * (pPump - pump.ultimate)) / p, pPump };
}

const throughHoses = (hoses: readonly Hose[], p: number, pPump: number, T: number): number =>
  hoses.reduce((sum, hose) => sum + conductance(hose, (p + pPump) / 2, T), 0) * (p - pPump);

/**
 * Pressure of a system while a pump draws on it.
 *
 * Between hoses and pump the throughput is equal; the rest is V·dp/dt. Liquid water holds the system at its vapour
 * pressure until it is gone, at the temperature given: it needs heat, and freezes without it, so the time is the
 * least that is possible.
 *
 * @returns series, least time and what held it up; or that the pump cannot go so deep.
 * Limits: dry, clean walls otherwise; oil and rubber give off gas and make real times longer. Poiseuille's law
 *         flatters hoses near atmospheric pressure, where the pump limits anyway.
 */
export function pumpDown(given: PumpDownCase): PumpDown {
  const { volume, pump, from, to, T, water } = given;
  if (to <= pump.ultimate) return { kind: "too-deep", deepest: pump.ultimate };
  const found = waterSaturation(T);
  const boiling = found.kind === "pressure" ? found.p : 0;
  const dries = water > 0 && boiling > to && boiling < from;
  const series: PumpDownPoint[] = [];
  const spent = { pump: 0, hose: 0, water: 0 };
  const step = Math.log(from / to) / STEPS;
  let t = 0;
  let dry = !dries;
  for (let i = 0; i <= STEPS; i++) {
    const p = from * Math.exp(-i * step);
    if (!dry && p <= boiling) {
      t += dryOut(series, spent, { given, boiling, t });
      dry = true;
    }
    const { pPump } = flowAt(given, p);
    const limit = pPump < p / 2 ? "hose" : "pump";
    series.push({ t, p, pPump, limit });
    if (i === STEPS) break;
    const middle = flowAt(given, p * Math.exp(-step / 2));
    const passed = (volume * step) / middle.speed;
    spent[limit] += passed;
    t += passed;
  }
  return { kind: "reached", series, time: t, spent };
}

/** Seconds at water's vapour pressure until it is gone; both ends of the level go into the series. */
function dryOut(
  series: PumpDownPoint[],
  spent: Record<PumpDownLimit, number>,
  {
    given,
    boiling,
    t,
  }: { readonly given: PumpDownCase; readonly boiling: number; readonly t: number },
): number {
  const { speed, pPump } = flowAt(given, boiling);
  const passed = given.water / ((speed * boiling * M_WATER) / (R * given.T));
  series.push(
    { t, p: boiling, pPump, limit: "water" },
    { t: t + passed, p: boiling, pPump, limit: "water" },
  );
  spent.water += passed;
  return passed;
}
