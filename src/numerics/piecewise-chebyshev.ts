import { chebyshevFit, chebyshevNodes, clenshaw } from "./chebyshev.ts";

/** Several functions expanded on the same intervals, all with the same number of coefficients. */
export interface PiecewiseChebyshev {
  /** Ends of the intervals, ascending, one more than there are intervals. */
  readonly breaks: Float64Array;
  /** Coefficients of one expansion. */
  readonly count: number;
  /** One table a function: the expansions of its intervals one after another. */
  readonly tables: readonly Float64Array[];
}

export interface PiecewiseOptions {
  readonly degree: number;
  /** Largest difference accepted in an interval with this middle, per function. */
  readonly tolerances: (middle: number) => readonly number[];
  /** Intervals are not split below this width, whatever the difference. */
  readonly narrowest: number;
}

/**
 * Expands functions on an interval, halving it until every function is met.
 *
 * @param f     Gives all functions at once; the result is copied.
 * @param range [from, to].
 */
export function fitPiecewise(
  f: (x: number) => readonly number[],
  range: readonly [number, number],
  options: PiecewiseOptions,
): PiecewiseChebyshev {
  const { degree, tolerances, narrowest } = options;
  const breaks = [range[0]];
  const functions = tolerances(range[0]).length;
  const tables: number[][] = Array.from({ length: functions }, () => []);
  const expand = (from: number, to: number): void => {
    const columns = columnsAt(f, chebyshevNodes(degree, from, to), functions);
    const parts = columns.map(chebyshevFit);
    const found = differencesBetweenNodes(f, parts, from, to);
    const middle = 0.5 * (from + to);
    const accepted = tolerances(middle);
    const met = found.every((difference, k) => difference <= accepted[k]);
    if (!met && 0.5 * (to - from) >= narrowest) {
      expand(from, middle);
      expand(middle, to);
      return;
    }
    breaks.push(to);
    for (const [k, part] of parts.entries()) tables[k].push(...part);
  };
  expand(range[0], range[1]);
  return {
    breaks: Float64Array.from(breaks),
    count: degree + 1,
    tables: tables.map((table) => Float64Array.from(table)),
  };
}

/**
 * Index of the interval that holds x; the first or last one for x outside.
 *
 * Cost: a binary search.
 */
export function intervalOf(breaks: Float64Array, x: number): number {
  let low = 0;
  let high = breaks.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x < breaks[middle]) high = middle;
    else low = middle;
  }
  return low;
}

/** Value of one of the functions at x, in the interval found by {@link intervalOf}. */
export function evaluateAt(
  expansion: PiecewiseChebyshev,
  table: Float64Array,
  interval: number,
  x: number,
): number {
  const from = expansion.breaks[interval];
  const to = expansion.breaks[interval + 1];
  const scaled = (2 * x - from - to) / (to - from);
  return clenshaw(table, interval * expansion.count, expansion.count, scaled);
}

function columnsAt(
  f: (x: number) => readonly number[],
  nodes: Float64Array,
  count: number,
): Float64Array[] {
  const rows = Array.from(nodes, f);
  return Array.from({ length: count }, (_, k) => Float64Array.from(rows, (row) => row[k]));
}

/** Differences at points between the nodes, where an expansion is at its worst. */
function differencesBetweenNodes(
  f: (x: number) => readonly number[],
  parts: readonly Float64Array[],
  from: number,
  to: number,
): number[] {
  const found = parts.map(() => 0);
  const points = parts[0].length - 1;
  for (let j = 0; j < points; j++) {
    const scaled = Math.cos((Math.PI * (j + 0.5)) / points);
    const row = f(0.5 * (from + to) + 0.5 * (to - from) * scaled);
    for (const [k, part] of parts.entries()) {
      const difference = Math.abs(clenshaw(part, 0, part.length, scaled) - row[k]);
      found[k] = Math.max(found[k], difference);
    }
  }
  return found;
}
