import { type Composition, compositionKey } from "./composition.ts";
import { blendSource } from "./blend-source.ts";
import { buildFlux } from "./critical-flux.ts";
import { along, createWeights, place, type Weights } from "./interpolate.ts";
import { ENDS } from "./isobar.ts";
import {
  type EvenAxis,
  LIQUID,
  type NoPack,
  type Pack,
  type PackOutcome,
  type PackSource,
  type SourceRow,
  SUPERHEAT,
  TWO_PHASE,
} from "./pack.ts";
import { pureSource } from "./pure-source.ts";

/** Lowest and highest pressure of a pack, Pa: below the first no suction runs, above the second a switch opens. */
const LOWEST = 12e3;
const HIGHEST = 3.6e6;
/** A pack that spans less than this ratio of pressures serves no cycle. */
const narrowest = 8;
/** Rows: a pure fluid's cost nothing; a blend's are flashes. */
const rowsPure = 64;
const rowsBlend = 48;
/** Superheat covered at low pressure, K. */
const superheatSpan = 160;

const kept = new Map<string, PackOutcome>();
/** Packs kept: some 150 kB each. */
const keptAtMost = 32;

/**
 * The property pack of a composition; built at the first request.
 *
 * @param composition Mass fractions, sum 1.
 * @returns the pack, or why the two-phase states could not be followed.
 * @throws  RangeError for fractions that make no sense: the caller's bug.
 *
 * Cost: some 30 ms for a pure fluid, several times that for a blend; then a look-up.
 */
export function propertyPack(composition: Composition): PackOutcome {
  const key = compositionKey(composition);
  const known = kept.get(key);
  if (known) return known;
  if (kept.size >= keptAtMost) kept.clear();
  const fresh = buildPack(composition);
  kept.set(key, fresh);
  return fresh;
}

/** Builds a pack; {@link propertyPack} keeps it. */
export function buildPack(composition: Composition): PackOutcome {
  const present = composition.fractions.map((w, k) => [w, k] as const).filter(([w]) => w > 0);
  const real: Composition = {
    ids: present.map(([, k]) => composition.ids[k]),
    fractions: present.map(([w]) => w),
  };
  const source = real.ids.length === 1 ? pureSource(real.ids[0]) : blendSource(real);
  const pMin = Math.max(LOWEST, 1.05 * source.pMin);
  const dhMax = superheatSpan * source.cpDew;
  const dh = Float64Array.from({ length: SUPERHEAT }, (_, k) => dhMax * (k / (SUPERHEAT - 1)) ** 2);
  const pMax = reachable(source, pMin, Math.min(HIGHEST, source.pMax), dh);
  if (pMax === 0) return noPack("no-two-phases", pMin);
  if (pMax < narrowest * pMin) return noPack("narrow-range", pMax);
  const count = source.glide ? rowsBlend : rowsPure;
  const from = Math.log(pMin);
  const axis: EvenAxis = { from, step: (Math.log(pMax) - from) / (count - 1), count };
  const rows: SourceRow[] = [];
  for (let i = 0; i < count; i++) {
    const p = Math.exp(from + i * axis.step);
    const row = source.row(p, dh);
    if (!row) return noPack("not-converged", p);
    rows.push(row);
  }
  return finish({ real, source, axis, dhMax }, rows);
}

const noPack = (reason: NoPack["reason"], p: number): NoPack => ({ kind: "no-pack", reason, p });

/** The highest pressure with two phases, up to the one wanted: near a blend's critical point there are none. */
function reachable(source: PackSource, pMin: number, pMax: number, dh: Float64Array): number {
  if (!source.glide) return pMax;
  if (!source.row(pMin, dh)) return 0;
  let p = pMax;
  for (let k = 0; k < 8; k++) {
    if (source.row(p, dh)) return p;
    p *= 0.9;
  }
  return 0;
}

function finish(
  basis: {
    readonly real: Composition;
    readonly source: PackSource;
    readonly axis: EvenAxis;
    readonly dhMax: number;
  },
  rows: readonly SourceRow[],
): PackOutcome {
  const { real, source, axis, dhMax } = basis;
  const { count } = axis;
  const wet = (pick: (row: SourceRow) => Float64Array): Float64Array => flat(rows, pick);
  const ends = new Float64Array(count * ENDS);
  for (const [i, row] of rows.entries()) {
    const d = TWO_PHASE - 1;
    const values = [row.T[0], row.T[d], row.h[0], row.h[d], row.s[0], row.s[d]];
    ends.set([...values, row.rhoL[0], Math.log(row.rhoV[d])], i * ENDS);
  }
  const lnPv = flat(rows, (row) => row.vRho);
  for (let i = 0; i < count; i++) {
    const p = Math.exp(axis.from + i * axis.step);
    for (let k = 0; k < SUPERHEAT; k++) {
      lnPv[i * SUPERHEAT + k] = Math.log(p / lnPv[i * SUPERHEAT + k]);
    }
  }
  const parts = {
    composition: real,
    glide: source.glide,
    M: source.M,
    lnP: axis,
    pMin: Math.exp(axis.from),
    pMax: Math.exp(axis.from + (count - 1) * axis.step),
    ends,
    T: wet((row) => row.T),
    s: wet((row) => row.s),
    quality: wet((row) => row.quality),
    lnRhoL: wet((row) => row.rhoL).map(Math.log),
    lnRhoV: wet((row) => row.rhoV).map(Math.log),
    dhMax,
    vT: wet((row) => row.vT),
    vS: wet((row) => row.vS),
    vLnPv: lnPv,
    Tmax: source.Tmax,
    sources: source.sources,
    estimates: source.estimates,
  };
  const lines = { ...parts, ...saturationLines(axis, rows) };
  const pack: Pack = { ...lines, flux: buildFlux(lines) };
  return { kind: "pack", pack };
}

function flat(rows: readonly SourceRow[], pick: (row: SourceRow) => Float64Array): Float64Array {
  const width = pick(rows[0]).length;
  const table = new Float64Array(rows.length * width);
  for (const [i, row] of rows.entries()) table.set(pick(row), i * width);
  return table;
}

type Lines = Pick<
  Pack,
  "liquidH" | "lT" | "lS" | "lRho" | "lLnP" | "liquidT" | "lH" | "dewT" | "dewLnP"
>;

/** Bubble line against h and T, dew line against T: the columns of the rows turned round. */
function saturationLines(axis: EvenAxis, rows: readonly SourceRow[]): Lines {
  const d = TWO_PHASE - 1;
  const column = (pick: (row: SourceRow) => number): Float64Array => Float64Array.from(rows, pick);
  const hb = column((row) => row.h[0]);
  const Tb = column((row) => row.T[0]);
  const Td = column((row) => row.T[d]);
  const liquidH = spread(hb);
  const liquidT = spread(Tb);
  const dewT = spread(Td);
  const byH = turn(axis, hb, liquidH);
  const byT = turn(axis, Tb, liquidT);
  const at = (lnP: Float64Array, values: Float64Array): Float64Array => {
    const weights = createWeights();
    return lnP.map((each) => {
      place(axis, each, weights);
      return along(values, weights);
    });
  };
  return {
    liquidH,
    lT: at(byH, Tb),
    lS: at(
      byH,
      column((row) => row.s[0]),
    ),
    lRho: at(
      byH,
      column((row) => row.rhoL[0]),
    ),
    lLnP: byH,
    liquidT,
    lH: at(byT, hb),
    dewT,
    dewLnP: turn(axis, Td, dewT),
  };
}

/** Axis of even steps between the ends of an ascending column. */
function spread(values: Float64Array): EvenAxis {
  const last = values[values.length - 1];
  return { from: values[0], step: (last - values[0]) / (LIQUID - 1), count: LIQUID };
}

/** ln p at the steps of `target`, where an ascending column of ln p has those values. */
function turn(axis: EvenAxis, values: Float64Array, target: EvenAxis): Float64Array {
  const weights = createWeights();
  const found = new Float64Array(target.count);
  for (let k = 0; k < target.count; k++) {
    found[k] = argumentOf(axis, values, target.from + k * target.step, weights);
  }
  return found;
}

function argumentOf(axis: EvenAxis, values: Float64Array, value: number, weights: Weights): number {
  let low = axis.from;
  let high = axis.from + axis.step * (axis.count - 1);
  // Bisection with a secant in between: the column is smooth and ascending.
  for (let k = 0; k < 60 && high - low > 1e-13; k++) {
    let x = 0.5 * (low + high);
    if (k % 3 !== 2) {
      place(axis, low, weights);
      const f1 = along(values, weights) - value;
      place(axis, high, weights);
      const f2 = along(values, weights) - value;
      if (f1 >= 0) return low;
      if (f2 <= 0) return high;
      x = low - (f1 * (high - low)) / (f2 - f1);
    }
    place(axis, x, weights);
    if (along(values, weights) < value) low = x;
    else high = x;
  }
  return 0.5 * (low + high);
}
