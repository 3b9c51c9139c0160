/** Why no root was found. `at` is the last argument tried, `residual` the function there. */
export interface RootFailure {
  readonly kind: "failed";
  readonly reason: "no-sign-change" | "not-finite" | "too-many-iterations";
  readonly at: number;
  readonly residual: number;
  readonly iterations: number;
}

export type RootOutcome =
  | {
      readonly kind: "root";
      readonly x: number;
      readonly residual: number;
      readonly iterations: number;
    }
  | RootFailure;

export interface RootOptions {
  /** Width of the bracket, relative to the root, at which the search ends; default 4e-16. */
  readonly relativeWidth?: number;
  readonly absoluteWidth?: number;
  readonly maxIterations?: number;
}

/** A bracket halves at least every second step or so: 200 steps cover the range of a double. */
const maxIterationsDefault = 200;

/**
 * Finds a root of a function in a bracket, by inverse quadratic interpolation where that is
 * safe and bisection elsewhere.
 *
 * @param f        Continuous on [a, b]; it may answer Infinity but not NaN.
 * @param a, b     Ends of the bracket in any order; f must change sign between them.
 *
 * Source: Chandrupatla, Adv. Eng. Softw. 28 (1997) 145
 */
export function findRoot(
  f: (x: number) => number,
  a: number,
  b: number,
  options: RootOptions = {},
): RootOutcome {
  const { relativeWidth = 4e-16, absoluteWidth = 0 } = options;
  const limit = options.maxIterations ?? maxIterationsDefault;
  let [x1, f1, x2, f2] = [a, f(a), b, f(b)];
  if (f1 === 0) return { kind: "root", x: x1, residual: 0, iterations: 0 };
  if (f2 === 0) return { kind: "root", x: x2, residual: 0, iterations: 0 };
  if (!(f1 * f2 < 0)) {
    const reason = Number.isNaN(f1 * f2) ? "not-finite" : "no-sign-change";
    return { kind: "failed", reason, at: x2, residual: f2, iterations: 0 };
  }
  let t = 0.5;
  for (let iterations = 1; iterations <= limit; iterations++) {
    const x = x1 + t * (x2 - x1);
    const fx = f(x);
    if (Number.isNaN(fx)) {
      return { kind: "failed", reason: "not-finite", at: x, residual: fx, iterations };
    }
    let [x3, f3] = [x1, f1];
    if (fx > 0 !== f1 > 0) [x3, f3, x2, f2] = [x2, f2, x1, f1];
    [x1, f1] = [x, fx];
    const [best, residual] = Math.abs(f2) < Math.abs(f1) ? [x2, f2] : [x1, f1];
    const share = (relativeWidth * Math.abs(best) + absoluteWidth) / Math.abs(x2 - x1);
    if (share > 0.5 || residual === 0) return { kind: "root", x: best, residual, iterations };
    t = nextShare(x1, f1, x2, f2, x3, f3);
    t = Math.min(1 - share, Math.max(share, t));
  }
  return { kind: "failed", reason: "too-many-iterations", at: x1, residual: f1, iterations: limit };
}

/** Where in [x1, x2] to look next: interpolated if Chandrupatla's test allows it, else half. */
function nextShare(x1: number, f1: number, x2: number, f2: number, x3: number, f3: number): number {
  const xi = (x1 - x2) / (x3 - x2);
  const phi = (f1 - f2) / (f3 - f2);
  if (!(1 - Math.sqrt(1 - xi) < phi && phi < Math.sqrt(xi))) return 0.5;
  return (
    (f1 / (f2 - f1)) * (f3 / (f2 - f3)) +
    ((x3 - x1) / (x2 - x1)) * (f1 / (f3 - f1)) * (f2 / (f3 - f2))
  );
}
