import { waterSaturation } from "../../src/air/index.ts";
import type { HoldCause } from "../../src/evidence/index.ts";
import { normal, type Random } from "../../src/numerics/index.ts";

/**
 * Holds made from physics, with the truth kept beside them: gas that follows its temperature, water that follows its
 * vapour pressure, outgassing that slows, a choked leak; read by a gauge with a wrong scale, scatter and steps.
 */

export interface MadeHold {
  readonly cause: HoldCause;
  readonly t: Float64Array;
  /** What the gauge showed, Pa. */
  readonly p: Float64Array;
  /** What a gauge without scatter and steps, but with its wrong scale, would have shown, Pa. */
  readonly exact: Float64Array;
  /** Standard deviation of each reading about `exact`, Pa. */
  readonly sigma: Float64Array;
  /** What the thermometer gave: one figure, or one a row. */
  readonly T: number | Float64Array;
  readonly volume: number;
  /** True throughput of the leak, Pa m3/s; 0 without one. */
  readonly leak: number;
  readonly resolution: number;
}

export const GAUGE = 0.1 / Math.sqrt(3);
const MICRON = 0.133322387415;
const steps = [1, 5, 10, 20, 50];
const lognormal = (random: Random, median: number, sd: number): number =>
  median * Math.exp(sd * normal(random));
const pick = <T>(random: Random, list: readonly T[]): T =>
  list[Math.floor(random() * list.length)] as T;

const water = (T: number): number => {
  const found = waterSaturation(T);
  return found.kind === "pressure" ? found.p : 0;
};

interface Kind {
  readonly cause: HoldCause;
  readonly leak: boolean;
  readonly source: "none" | "gas" | "water";
}

function kindOf(random: Random): Kind {
  const u = random();
  if (u < 0.25) return { cause: "tight", leak: false, source: "none" };
  if (u < 0.4) return { cause: "wet", leak: false, source: "water" };
  if (u < 0.65) return { cause: "outgassing", leak: false, source: "gas" };
  if (u < 0.85) return { cause: "leaking", leak: true, source: "none" };
  return { cause: "leaking", leak: true, source: u < 0.95 ? "gas" : "water" };
}

/** Temperature over time: a line and a slow wave, together a kelvin or two. */
function temperatures(random: Random, t: Float64Array): Float64Array {
  const T0 = 278 + 30 * random();
  const span = t.at(-1) ?? 1;
  const drift = 1.5 * normal(random);
  const wave = 0.15 * normal(random);
  const phase = 6.28 * random();
  return t.map(
    (s) => T0 + (drift * s) / span + wave * (Math.sin((6.28 * s) / span + phase) - Math.sin(phase)),
  );
}

function risen(random: Random): (s: number) => number {
  const tau = lognormal(random, 240, 0.8);
  const form = pick(random, ["exponential", "logarithmic", "root"] as const);
  const size = lognormal(random, form === "exponential" ? 90 : 45, 0.7);
  if (form === "exponential") return (s) => size * (1 - Math.exp(-s / tau));
  if (form === "logarithmic") return (s) => size * Math.log(1 + s / tau);
  return (s) => size * (Math.sqrt(1 + s / tau) - 1);
}

export function makeHold(random: Random): MadeHold {
  const kind = kindOf(random);
  const n = Math.round(8 * 25 ** random());
  const span = 60 * (8 + 27 * random());
  const t = Float64Array.from({ length: n }, (_, i) => (span * i) / (n - 1));
  const T = temperatures(random, t);
  const volume = 1e-3 * (1.5 + 4 * random());
  const start = lognormal(random, 55, 0.4);
  const slope = kind.leak ? lognormal(random, 0.3, 1.5) : 0;
  const rise = kind.source === "gas" ? risen(random) : () => 0;
  const offset = 1.5 * normal(random);
  const tau = lognormal(random, 300, 0.9);
  const T0 = T[0] ?? 293;
  const scale = 1 + GAUGE * normal(random);
  const exact = t.map((s, i) => {
    const Ti = T[i] ?? T0;
    const gas = kind.source === "water" ? start : start + rise(s);
    const approach = 1 - Math.exp(-s / tau);
    const wet = kind.source === "water" ? (water(Ti + offset) - start) * approach : 0;
    return scale * ((gas + slope * s) * (kind.source === "water" ? 1 : Ti / T0) + wet);
  });
  const noise = lognormal(random, 0.008, 0.8);
  const resolution = pick(random, steps) * MICRON;
  const scatter = exact.map((one) => noise * Math.hypot(one, 10));
  const p = exact.map((one, i) =>
    Math.max(
      resolution,
      resolution * Math.round((one + (scatter[i] ?? 0) * normal(random)) / resolution),
    ),
  );
  const sigma = scatter.map((one) => Math.hypot(one, resolution / Math.sqrt(12)));
  const logged = random() < 0.4;
  return {
    cause: kind.cause,
    t,
    p,
    exact,
    sigma,
    T: logged ? T : T0,
    volume,
    leak: slope * volume,
    resolution,
  };
}
