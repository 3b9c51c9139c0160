/** A place where stated and recomputed figures part. */
export interface Difference {
  /** Names and positions from the outside in, joined by dots. */
  readonly at: string;
  readonly stated: unknown;
  readonly recomputed: unknown;
}

/** More than these tell nothing new. */
const most = 50;

/**
 * Compares two trees of figures.
 *
 * @param tolerance  Relative difference of two numbers that still counts as equal; 0 asks for the same bits.
 */
export function differences(stated: unknown, recomputed: unknown, tolerance: number): Difference[] {
  const found: Difference[] = [];
  walk(stated, recomputed, "", (at, a, b) => {
    if (found.length < most && !same(a, b, tolerance)) {
      found.push({ at: at === "" ? "(all)" : at, stated: a, recomputed: b });
    }
  });
  return found;
}

type Leaf = (at: string, stated: unknown, recomputed: unknown) => void;

const isTree = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null;

function walk(a: unknown, b: unknown, at: string, leaf: Leaf): void {
  if (!isTree(a) || !isTree(b) || Array.isArray(a) !== Array.isArray(b)) {
    leaf(at, a, b);
    return;
  }
  for (const name of new Set([...Object.keys(a), ...Object.keys(b)])) {
    walk(a[name], b[name], at === "" ? name : `${at}.${name}`, leaf);
  }
}

function same(a: unknown, b: unknown, tolerance: number): boolean {
  if (typeof a === "number" && typeof b === "number") {
    return Object.is(a, b) || Math.abs(a - b) <= tolerance * Math.max(Math.abs(a), Math.abs(b));
  }
  return a === b;
}
