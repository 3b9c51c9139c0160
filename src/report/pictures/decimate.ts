/** A point of a line on the page. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Gaps longer than this many ordinary steps break a line: nothing was measured there. */
const LONGEST_BRIDGE = 5;

/**
 * A trace as unbroken stretches of points, thinned to first, lowest, highest and last of each pixel
 * column, so that no spike is lost and the picture stays small.
 *
 * @param t      Ascending, any unit.
 * @param values As long as `t`.
 * @throws RangeError if the lengths differ.
 */
export function decimate(
  t: ArrayLike<number>,
  values: ArrayLike<number>,
  toPoint: (t: number, value: number) => Point,
): Point[][] {
  if (t.length !== values.length) {
    throw new RangeError(`t has ${t.length} entries, values has ${values.length}`);
  }
  const bridge = LONGEST_BRIDGE * ordinaryStep(t);
  const stretches: Point[][] = [];
  let column: Point[] = [];
  let stretch: Point[] = [];
  for (let i = 0; i < t.length; i++) {
    const point = toPoint(t[i] ?? 0, values[i] ?? 0);
    const broken = i > 0 && (t[i] ?? 0) - (t[i - 1] ?? 0) > bridge;
    if (broken || Math.floor(point.x) !== Math.floor(column[0]?.x ?? point.x)) {
      stretch.push(...ends(column));
      column = [];
    }
    if (broken && stretch.length > 0) {
      stretches.push(stretch);
      stretch = [];
    }
    column.push(point);
  }
  stretch.push(...ends(column));
  return stretch.length > 0 ? [...stretches, stretch] : stretches;
}

/** px: nearer to a straight line than a hair's breadth nobody sees it. */
const HAIR = 0.8;

/** Leaves out what a straight line between its neighbours shows as well: every point stays within a hair of the line. */
export function straightened(points: readonly Point[]): Point[] {
  const kept = new Set([0, points.length - 1]);
  const open: [number, number][] = [[0, points.length - 1]];
  for (let span = open.pop(); span; span = open.pop()) {
    const [from, to] = span;
    const far = farthest(points, from, to);
    if (far === undefined) continue;
    kept.add(far);
    open.push([from, far], [far, to]);
  }
  return points.filter((_, i) => kept.has(i));
}

/** The point between two others that lies farthest above or below their line; none within a hair. */
function farthest(points: readonly Point[], from: number, to: number): number | undefined {
  const [a, b] = [points[from], points[to]];
  if (!a || !b) return undefined;
  const slope = b.x === a.x ? 0 : (b.y - a.y) / (b.x - a.x);
  let [most, at]: [number, number | undefined] = [HAIR, undefined];
  for (let i = from + 1; i < to; i++) {
    const { x, y } = points[i] ?? a;
    const off = Math.abs(y - a.y - slope * (x - a.x));
    if (off > most) [most, at] = [off, i];
  }
  return at;
}

function ordinaryStep(t: ArrayLike<number>): number {
  const steps = Array.from(
    { length: Math.max(0, t.length - 1) },
    (_, i) => (t[i + 1] ?? 0) - (t[i] ?? 0),
  );
  steps.sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 2)] ?? Infinity;
}

function ends(column: readonly Point[]): Point[] {
  if (column.length <= 4) return [...column];
  let low = 0;
  let high = 0;
  column.forEach(({ y }, i) => {
    if (y < (column[low]?.y ?? 0)) low = i;
    if (y > (column[high]?.y ?? 0)) high = i;
  });
  const kept = [...new Set([0, low, high, column.length - 1])].sort((a, b) => a - b);
  return kept.flatMap((i) => column[i] ?? []);
}

/** Path of the stretches, a tenth of a pixel fine. A lone point becomes a dot's worth of line. */
export const pathOf = (stretches: readonly (readonly Point[])[]): string =>
  stretches
    .map((points) => {
      const [first, ...rest] = points.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`);
      if (first === undefined) return "";
      return rest.length === 0 ? `M${first}h0.1` : `M${first}L${rest.join(" ")}`;
    })
    .join("");
