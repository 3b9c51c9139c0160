import { findRoot } from "../../numerics/index.ts";
import type { Mode } from "./air-zones.ts";
import { concentrationAt } from "./concentration.ts";
import { type Release, releasedUntil, releaseEnd } from "./release.ts";

/** How high a concentration climbs and how long it stays above some levels. */
export interface Exposure {
  /** kg/m3 */
  readonly peak: number;
  /** s from the beginning of the leak. */
  readonly peakAt: number;
  /** s above each level, in their order; `null` where it never falls below again. */
  readonly above: readonly (number | null)[];
  /** When the concentration last leaves each level, s; 0 where it was never above, `null` as before. */
  readonly until: readonly (number | null)[];
}

/** Points in a part of the release, and after its end; a curve of three exponentials has no finer shape. */
const POINTS = 96;

/** Times dense where the curve bends: near the beginning of each part, then ever wider. */
function spaced(from: number, to: number): number[] {
  return Array.from({ length: POINTS }, (_, i) => from + (to - from) * ((i + 1) / POINTS) ** 3);
}

/**
 * When all modes that decay are gone to a millionth of a level, s after the end of the release; 0 if none does.
 */
function fadeTime(modes: readonly Mode[], mass: number, level: number): number {
  const decaying = modes.filter(({ lambda }) => lambda > 0);
  const slowest = Math.min(...decaying.map(({ lambda }) => lambda));
  if (decaying.length === 0) return 0;
  const most = decaying.reduce((sum, { c }) => sum + Math.abs(c), 0) * mass;
  return Math.max(0, Math.log(most / (1e-6 * level))) / slowest;
}

/** Moments at which the curve is looked at, from 0 to where nothing changes any more. */
function gridOf(modes: readonly Mode[], release: Release, level: number): number[] {
  const end = releaseEnd(release);
  const mass = releasedUntil(release, end);
  const ends = release.parts.map(({ to }) => to);
  const starts = [0, ...ends];
  const during = ends.flatMap((to, i) => spaced(starts[i] ?? 0, to));
  const fade = fadeTime(modes, mass, level);
  return [0, ...during, ...(fade > 0 ? spaced(end, end + fade) : [])];
}

/** The highest point, refined between its neighbours by golden section. */
function highest(f: (t: number) => number, grid: readonly number[]): readonly [number, number] {
  const values = grid.map(f);
  const best = values.indexOf(Math.max(...values));
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [grid[Math.max(0, best - 1)] ?? 0, grid[Math.min(grid.length - 1, best + 1)] ?? 0];
  for (let i = 0; i < 60; i++) {
    const [left, right] = [b - golden * (b - a), a + golden * (b - a)];
    if (f(left) < f(right)) a = left;
    else b = right;
  }
  const middle = (a + b) / 2;
  const at = grid[best] ?? 0;
  return f(middle) > f(at) ? [middle, f(middle)] : [at, f(at)];
}

/** Time above a level between two neighbouring moments, and when it ends there. */
function aboveBetween(g: (t: number) => number, a: number, b: number): readonly [number, number] {
  const [before, after] = [g(a) > 0, g(b) > 0];
  if (!before && !after) return [0, 0];
  if (before && after) return [b - a, b];
  const root = findRoot(g, a, b);
  const t = root.kind === "root" ? root.x : root.at;
  return before ? [t - a, t] : [b - t, b];
}

/**
 * Peak of a zone's concentration and the time above some levels.
 *
 * @param modes  Of the zone.
 * @param levels kg/m3, > 0.
 *
 * Checked: leak.property.test.ts, against a brute-force search
 */
export function exposureOf(
  modes: readonly Mode[],
  release: Release,
  levels: readonly number[],
): Exposure {
  const f = (t: number): number => concentrationAt(modes, release, t);
  const grid = gridOf(modes, release, Math.min(...levels, 1));
  const [peakAt, peak] = highest(f, grid);
  const moments = [...new Set([...grid, peakAt])].sort((a, b) => a - b);
  const last = moments.at(-1) ?? 0;
  const spells = levels.map((level) => {
    if (f(last) > level) return [null, null] as const;
    const g = (t: number): number => f(t) - level;
    const pieces = moments.slice(1).map((t, i) => aboveBetween(g, moments[i] ?? 0, t));
    const total = pieces.reduce((sum, [time]) => sum + time, 0);
    return [total, pieces.reduce((latest, [time, end]) => (time > 0 ? end : latest), 0)] as const;
  });
  return {
    peak,
    peakAt,
    above: spells.map(([time]) => time),
    until: spells.map(([, end]) => end),
  };
}
