/**
 * A hold as the analysis takes it: few enough rows, equal readings in a row told by their first and last, and for
 * each row how large its random error may be.
 */

export interface HoldRows {
  /** s from the valve's closing. */
  readonly t: ArrayLike<number>;
  /** Absolute pressure, Pa. */
  readonly p: ArrayLike<number>;
  /** Temperature of the system, K: one for all rows, or one a row. */
  readonly T: number | ArrayLike<number>;
}

export interface PreparedHold {
  /** s from the first row. */
  readonly t: Float64Array;
  readonly p: Float64Array;
  /** Temperature of each row, K. */
  readonly T: Float64Array;
  readonly temperatureKnown: boolean;
  /** Neighbours' mean, Pa: what errors in percent of the reading are counted from. */
  readonly level: Float64Array;
  /** Step of the gauge's figures, Pa. */
  readonly step: number;
}

/** More rows than this are averaged in blocks: errors of close readings are hardly independent. */
const MOST_ROWS = 200;

const temperatureAt = (T: HoldRows["T"], i: number): number =>
  typeof T === "number" ? T : (T[i] ?? NaN);

/** Means of blocks of neighbours, when there are too many rows. */
function blocks({ t, p, T }: HoldRows): { t: number; p: number; T: number }[] {
  const size = Math.ceil(t.length / MOST_ROWS);
  const means: { t: number; p: number; T: number }[] = [];
  for (let from = 0; from < t.length; from += size) {
    const to = Math.min(t.length, from + size);
    const mean = { t: 0, p: 0, T: 0 };
    for (let i = from; i < to; i++) {
      mean.t += (t[i] ?? 0) / (to - from);
      mean.p += (p[i] ?? 0) / (to - from);
      mean.T += temperatureAt(T, i) / (to - from);
    }
    means.push(mean);
  }
  return means;
}

/**
 * The step in which a gauge shows its figures: the largest that all differences are multiples of.
 *
 * @returns Pa; 0 when all readings are equal.
 */
export function stepOf(p: ArrayLike<number>): number {
  const values = [...new Set(Array.from(p))].sort((a, b) => a - b);
  const top = values[values.length - 1] ?? 0;
  // Below this a difference is rounding of the conversion between units.
  const smallest = 1e-6 * top;
  let step = 0;
  for (let i = 1; i < values.length; i++) {
    const gap = (values[i] ?? 0) - (values[i - 1] ?? 0);
    if (gap > smallest) step = commonMeasure(step, gap, smallest);
  }
  return step;
}

function commonMeasure(a: number, b: number, smallest: number): number {
  while (b > smallest) {
    const rest = a - b * Math.round(a / b);
    [a, b] = [b, Math.abs(rest)];
  }
  return a;
}

/** Inner readings of a run of equal ones tell nothing that its ends do not: their rounding is the same. */
function ends(rows: readonly { t: number; p: number; T: number }[]): typeof rows {
  return rows.filter((row, i) => !(row.p === rows[i - 1]?.p && row.p === rows[i + 1]?.p));
}

/** Mean of up to five neighbours. */
function smoothed(p: Float64Array): Float64Array {
  return p.map((_, i) => {
    const near = p.subarray(Math.max(0, i - 2), i + 3);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
}

/** An unchanging gauge says nothing about its step; this share of the reading stands for it. */
const UNSEEN_STEP = 0.01;

/**
 * Readies a hold for analysis.
 *
 * @param resolution Step of the gauge, Pa, when it is known; otherwise it is read from the figures.
 */
export function prepareHold(rows: HoldRows, resolution?: number): PreparedHold {
  const kept = ends(blocks(rows));
  const start = kept[0]?.t ?? 0;
  const p = Float64Array.from(kept, (row) => row.p);
  const seen = stepOf(p);
  return {
    t: Float64Array.from(kept, (row) => row.t - start),
    p,
    T: Float64Array.from(kept, (row) => row.T),
    temperatureKnown: typeof rows.T !== "number",
    level: smoothed(p),
    step: resolution ?? (seen > 0 ? seen : UNSEEN_STEP * (p[0] ?? 0)),
  };
}

/**
 * Weights 1/σ² of the rows at a level of noise.
 *
 * @param noise Random error as a share of the reading; near zero it stands on a floor, as bridges do.
 */
export const weightsAt = ({ level, step }: PreparedHold, noise: number): Float64Array =>
  level.map((p) => 1 / ((noise * Math.hypot(p, FLOOR)) ** 2 + step ** 2 / 12));

/** Pressure below which a thermistor gauge's scatter falls no further, Pa; 75 micron (common practice, no source). */
export const FLOOR = 10;
