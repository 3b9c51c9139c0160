/** A stated probability and whether it came true. */
export interface Forecast {
  readonly probability: number;
  readonly happened: boolean;
}

/** One row of a reliability table. */
export interface ReliabilityRow {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Mean of the stated probabilities, and the share that came true. */
  readonly stated: number;
  readonly observed: number;
  /** Standard error of the share if the stated probabilities were right. */
  readonly standardError: number;
}

/**
 * Stated probabilities against how often they came true, in classes of the stated probability.
 *
 * @param edges Rising, from 0 to 1. Empty classes are left out.
 * Source: Murphy, J. Appl. Meteor. 12 (1973) 595
 */
export function reliabilityTable(
  forecasts: readonly Forecast[],
  edges: readonly number[],
): ReliabilityRow[] {
  return edges.slice(1).flatMap((to, k) => {
    const from = edges[k];
    const last = k === edges.length - 2;
    const inside = forecasts.filter(
      ({ probability: p }) => p >= from && (p < to || (last && p <= to)),
    );
    const count = inside.length;
    if (count === 0) return [];
    const stated = inside.reduce((sum, { probability }) => sum + probability, 0) / count;
    const observed = inside.filter(({ happened }) => happened).length / count;
    const variance = inside.reduce((sum, { probability: p }) => sum + p * (1 - p), 0);
    return [{ from, to, count, stated, observed, standardError: Math.sqrt(variance) / count }];
  });
}

/** Mean distance between stated and observed, weighted by the number of forecasts. */
export function calibrationError(rows: readonly ReliabilityRow[]): number {
  const total = rows.reduce((sum, { count }) => sum + count, 0);
  return rows.reduce(
    (sum, row) => sum + (row.count / total) * Math.abs(row.stated - row.observed),
    0,
  );
}
