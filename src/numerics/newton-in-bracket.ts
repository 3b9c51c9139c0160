import type { RootOutcome } from "./find-root.ts";

/**
 * Newton's method that never leaves a bracket: a step that would is replaced by bisection.
 *
 * @param f       Gives the value and the derivative at x.
 * @param bracket `[from, to]` with a change of sign of the value between them.
 * @param start   First argument tried, inside the bracket.
 * @param width   Relative step at which the search ends.
 *
 * Source: Press and others, Numerical Recipes, 3rd ed., 9.4
 */
export function newtonInBracket(
  f: (x: number) => { readonly value: number; readonly slope: number },
  bracket: readonly [number, number],
  start: number,
  width = 1e-15,
): RootOutcome {
  const signFrom = Math.sign(f(bracket[0]).value);
  let [from, to] = bracket;
  let x = start;
  const limit = 100;
  let residual = 0;
  for (let iterations = 1; iterations <= limit; iterations++) {
    const { value, slope } = f(x);
    residual = value;
    if (!Number.isFinite(value)) {
      return { kind: "failed", reason: "not-finite", at: x, residual, iterations };
    }
    if (value === 0) return { kind: "root", x, residual, iterations };
    if (Math.sign(value) === signFrom) from = x;
    else to = x;
    const newton = x - value / slope;
    const inside = newton > Math.min(from, to) && newton < Math.max(from, to);
    const next = inside ? newton : 0.5 * (from + to);
    if (Math.abs(next - x) <= width * Math.abs(next)) {
      return { kind: "root", x: next, residual, iterations };
    }
    x = next;
  }
  return { kind: "failed", reason: "too-many-iterations", at: x, residual, iterations: limit };
}
