import type { HoldCause } from "../../src/evidence/index.ts";
import { waterSaturation } from "../../src/air/index.ts";
import type { MadeHold } from "./hold-population.ts";

/**
 * Whether a hold could be told at all, from the truth and the gauge alone: the curve without errors against the
 * nearest curve of every other cause, in standard deviations of the gauge's readings. It runs nothing of the
 * analysis. Causes may choose any size within what physics allows.
 */

/** Distance from which two curves count as apart: chance takes one for the other in Φ(−d/2) = 0.6 % of holds. */
export const APART = 5;

/** Ranges: outgassing to 700 Pa, times from 20 s to an hour, drift of ±3 K, water within ±3.5 K of the thermometer. */
const times = Array.from({ length: 12 }, (_, i) => 20 * 180 ** (i / 11));
const FREE = 1e4;

interface Column {
  readonly values: Float64Array;
  readonly from: number;
  readonly to: number;
}

function families(hold: MadeHold): Record<HoldCause, Column[][]> {
  const { t, T } = hold;
  const at = (i: number): number => (typeof T === "number" ? T : (T[i] ?? 293));
  const ones = t.map((_, i) => at(i) / at(0));
  const span = t.at(-1) ?? 1;
  const level = hold.exact;
  const allowed = typeof T === "number" ? 0.0103 : 0.0015;
  const start: Column = { values: ones, from: 0, to: FREE };
  const drift: Column = {
    values: level.map((p, i) => (p * (t[i] ?? 0)) / span),
    from: -allowed,
    to: allowed,
  };
  const leak: Column = { values: Float64Array.from(t), from: 0, to: FREE };
  const gases = times.flatMap((tau) => [
    { values: t.map((s) => 1 - Math.exp(-s / tau)), from: 0, to: 700 },
    { values: t.map((s) => Math.log1p(s / tau)), from: 0, to: 350 },
    { values: t.map((s) => Math.sqrt(1 + s / tau) - 1), from: 0, to: 350 },
  ]);
  const waters = times.map((tau): Column[] => {
    const fading = t.map((s) => Math.exp(-s / tau));
    const full = t.map((_, i) => pressure(at(i)) * (1 - (fading[i] ?? 0)));
    const moving = typeof T === "number" ? 0.2 : 0.025;
    return [
      { values: fading, from: 0, to: FREE },
      { values: full, from: 0.65, to: 1.5 },
      { values: full.map((one, i) => (one * (t[i] ?? 0)) / span), from: -moving, to: moving },
    ];
  });
  return {
    tight: [[start, drift]],
    wet: waters,
    outgassing: gases.map((gas) => [start, drift, gas]),
    leaking: [
      ...gases.map((gas) => [start, drift, leak, gas]),
      ...waters.map((wet) => [...wet, leak]),
    ],
  };
}

const pressure = (T: number): number => {
  const found = waterSaturation(T);
  return found.kind === "pressure" ? found.p : 0;
};

/** Least squares within bounds, one coefficient after another until nothing moves. */
function distance(columns: readonly Column[], y: Float64Array, sigma: Float64Array): number {
  const scaled = columns.map(({ values }) => values.map((v, i) => v / (sigma[i] ?? 1)));
  const rest = y.map((v, i) => v / (sigma[i] ?? 1));
  const x = columns.map(() => 0);
  const sizes = scaled.map((column) => column.reduce((s, v) => s + v * v, 0));
  let before = Infinity;
  for (let round = 0; round < 400; round++) {
    columns.forEach(({ from, to }, j) => {
      const column = scaled[j] ?? rest;
      let slope = 0;
      for (let i = 0; i < rest.length; i++) slope += (column[i] ?? 0) * (rest[i] ?? 0);
      const next = Math.min(to, Math.max(from, (x[j] ?? 0) + slope / (sizes[j] ?? 1)));
      const change = next - (x[j] ?? 0);
      x[j] = next;
      for (let i = 0; i < rest.length; i++) rest[i] = (rest[i] ?? 0) - change * (column[i] ?? 0);
    });
    if (round % 20 === 19) {
      const now = rest.reduce((s, v) => s + v * v, 0);
      if (before - now < 1e-3 * Math.max(1, now)) break;
      before = now;
    }
  }
  return Math.sqrt(rest.reduce((s, v) => s + v * v, 0));
}

/**
 * Smallest distance of the true curve from any curve of another cause, in standard deviations.
 *
 * Every wider cause contains the narrower ones (a leak of nothing is no leak): from a cause that contains the
 * truth's own the distance is zero, and Occam's razor has to tell them apart; that it can is judged the other way,
 * by what is left when the truth's own extra is taken away. So only causes that do not contain it are asked.
 */
export function apart(hold: MadeHold): number {
  const all = families(hold);
  const others: Record<HoldCause, readonly HoldCause[]> = {
    tight: ["wet"],
    wet: ["tight", "outgassing"],
    outgassing: ["tight", "wet"],
    leaking: ["tight", "wet", "outgassing"],
  };
  const found = others[hold.cause].flatMap((cause) =>
    all[cause].map((columns) => distance(columns, hold.exact, hold.sigma)),
  );
  return Math.min(...found, ...smallestOther(hold, all));
}

/**
 * For tight and outgassing, the least that a wider cause of noticeable size would differ: a leak of 0.05 Pa/s
 * (225 micron in 10 min) or outgassing of 25 Pa (190 micron), the smallest that the population has in numbers.
 */
function smallestOther(hold: MadeHold, all: Record<HoldCause, Column[][]>): number[] {
  const atLeast = (columns: readonly Column[], place: number, from: number): Column[] =>
    columns.map((column, j) => (j === place ? { ...column, from } : column));
  const leakings = all.leaking.map((columns) =>
    atLeast(columns, columns.length === 4 && columns[3]?.to === FREE ? 3 : 2, 0.05),
  );
  const gases = all.outgassing.map((columns) => atLeast(columns, 2, 25));
  const asked =
    hold.cause === "tight"
      ? [...leakings, ...gases]
      : hold.cause === "outgassing" || hold.cause === "wet"
        ? leakings
        : [];
  return asked.map((columns) => distance(columns, hold.exact, hold.sigma));
}
