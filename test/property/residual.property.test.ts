// Derivatives of the compiled residual and ideal parts, worked out by hand, against an evaluator that
// writes each term as printed and differentiates by jets; and the third derivative against differences.
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  A00,
  A01,
  A02,
  A03,
  A10,
  A11,
  A20,
  compileResidual,
  createResidualWork,
  createStateWork,
  evaluateAll,
  evaluateInDelta,
  fluid,
  fluidIds,
  parseResidual,
  setTau,
  type ResidualModel,
} from "../../src/fluids/index.ts";
import { add, constant, exp, multiply, power, scale, variable, type Jet } from "./jet.ts";

type Column =
  | "n"
  | "d"
  | "t"
  | "l"
  | "g"
  | "m"
  | "eta"
  | "epsilon"
  | "beta"
  | "gamma"
  | "a"
  | "b"
  | "A"
  | "B"
  | "C"
  | "D";
type Term = { readonly type: string } & Readonly<Partial<Record<Column, readonly number[]>>>;
type Terms = readonly Term[];

const seed = { seed: 20, numRuns: 60 };

function termsOf(id: string): Terms {
  const name = `../../data/fluids/${id.replaceAll(/[()]/g, "")}.json`;
  const file = JSON.parse(readFileSync(new URL(name, import.meta.url), "utf8")) as {
    residual: Terms;
  };
  return file.residual;
}

/** The sum of the terms as the papers print them. x is τ, y is δ. */
function printedSum(terms: Terms, tauValue: number, deltaValue: number): Jet {
  const tau = variable.x(tauValue);
  const delta = variable.y(deltaValue);
  const off = (place: Jet, by: number): Jet => add(place, constant(-by));
  const parts: Jet[] = [];
  for (const term of terms) {
    for (let k = 0; k < (term.n?.length ?? 0); k++) {
      const at = (column: Column): number => term[column]?.[k] ?? 0;
      const square = (place: Jet, by: number): Jet => multiply(off(place, by), off(place, by));
      const body = (): Jet => scale(multiply(power(delta, at("d")), power(tau, at("t"))), at("n"));
      switch (term.type) {
        case "power":
        case "powerG":
        case "powerExpTau": {
          const g = term.type === "powerG" ? at("g") : 1;
          const fromDelta = at("l") === 0 ? constant(0) : scale(power(delta, at("l")), -g);
          const fromTau = at("m") === 0 ? constant(0) : scale(power(tau, at("m")), -1);
          parts.push(multiply(body(), exp(add(fromDelta, fromTau))));
          break;
        }
        case "gaussian": {
          const u = add(
            scale(square(delta, at("epsilon")), -at("eta")),
            scale(square(tau, at("gamma")), -at("beta")),
          );
          parts.push(multiply(body(), exp(u)));
          break;
        }
        case "gergExponential": {
          const u = add(
            scale(square(delta, at("epsilon")), -at("eta")),
            scale(off(delta, at("gamma")), -at("beta")),
          );
          parts.push(multiply(body(), exp(u)));
          break;
        }
        case "nonAnalytic": {
          const s2 = square(delta, 1);
          const Theta = add(
            constant(1),
            scale(tau, -1),
            scale(power(s2, 0.5 / at("beta")), at("A")),
          );
          const Delta = add(multiply(Theta, Theta), scale(power(s2, at("a")), at("B")));
          const Psi = exp(add(scale(s2, -at("C")), scale(square(tau, 1), -at("D"))));
          parts.push(scale(multiply(multiply(power(Delta, at("b")), delta), Psi), at("n")));
          break;
        }
        default:
          throw new Error(term.type);
      }
    }
  }
  return add(...parts);
}

function compare(model: ResidualModel, terms: Terms, tau: number, delta: number): void {
  const work = createResidualWork(model);
  setTau(model, tau, work);
  evaluateAll(model, delta, work);
  const [value, t, d, tt, td, dd] = printedSum(terms, tau, delta);
  const wanted = [
    [A00, value],
    [A01, delta * d],
    [A02, delta * delta * dd],
    [A10, tau * t],
    [A11, tau * delta * td],
    [A20, tau * tau * tt],
  ] as const;
  const size = sizeOfTerms(terms, tau, delta);
  for (const [place, expected] of wanted) {
    expect(Math.abs((work.A[place] ?? Number.NaN) - expected) / size).toBeLessThan(2e-13);
  }
  const first = [A00, A01, A02].map((place) => work.A[place] ?? Number.NaN);
  evaluateInDelta(model, delta, work);
  for (const [k, place] of [A00, A01, A02].entries()) {
    const difference = Math.abs((work.A[place] ?? Number.NaN) - (first[k] ?? Number.NaN));
    expect(difference / size).toBeLessThan(2e-13);
  }
}

/** Rounding grows with the size of the terms, which cancel: the sum of their sizes is the scale. */
function sizeOfTerms(terms: Terms, tau: number, delta: number): number {
  let size = 1e-3;
  for (const term of terms) {
    for (let k = 0; k < (term.n?.length ?? 0); k++) {
      const [f, x, y, xx, xy, yy] = printedSum([elementOf(term, k)], tau, delta);
      for (const part of [
        f,
        tau * x,
        delta * y,
        tau ** 2 * xx,
        tau * delta * xy,
        delta ** 2 * yy,
      ]) {
        size += Math.abs(part);
      }
    }
  }
  return size;
}

/** One element of a group of terms, as a group of one. */
function elementOf(term: Term, k: number): Term {
  const { type, ...columns } = term;
  const single = Object.entries(columns).map(([key, column]) => [key, [column[k] ?? 0]]);
  return { type, ...(Object.fromEntries(single) as Partial<Record<Column, readonly number[]>>) };
}

describe("derivatives equal those of the printed terms", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const terms = termsOf(id);
      const model = fluid(id).residual;
      fc.assert(
        fc.property(
          fc.double({ min: 0.6, max: 2.5, noNaN: true }),
          fc.double({ min: 1e-6, max: 3, noNaN: true }),
          (tau, delta) => {
            compare(model, terms, tau, delta);
          },
        ),
        seed,
      );
    });
  }

  test("gergExponential, of departure functions", () => {
    const terms: Terms = [
      {
        type: "gergExponential",
        n: [0.2, -0.4],
        d: [1, 2],
        t: [1.85, 0.4],
        eta: [1, 0.25],
        epsilon: [0.5, 0.5],
        beta: [1, 2.5],
        gamma: [0.5, 0.7],
      },
    ];
    const model = compileResidual(parseResidual({ path: "terms", value: terms }));
    fc.assert(
      fc.property(
        fc.double({ min: 0.6, max: 2.5, noNaN: true }),
        fc.double({ min: 1e-6, max: 3, noNaN: true }),
        (tau, delta) => {
          compare(model, terms, tau, delta);
        },
      ),
      seed,
    );
  });

  test("non-analytic terms at the critical point", () => {
    for (const id of ["R718", "R744"] as const) {
      const model = fluid(id).residual;
      for (const [tau, delta] of [
        [1 + 1e-4, 1 - 1e-3],
        [1 - 1e-3, 1 + 1e-4],
        [1.01, 0.99],
        [0.99, 1.3],
      ] as const) {
        compare(model, termsOf(id), tau, delta);
      }
      const work = createResidualWork(model);
      setTau(model, 1, work);
      evaluateAll(model, 1, work);
      expect([...work.A].every(Number.isFinite)).toBe(true);
      evaluateInDelta(model, 1, work);
      expect([...work.A].every(Number.isFinite)).toBe(true);
    }
  });
});

describe("the third density derivative equals a central difference of the second", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const model = fluid(id).residual;
      const { residual: work } = createStateWork(fluid(id));
      fc.assert(
        fc.property(
          fc.double({ min: 0.7, max: 2, noNaN: true }),
          fc.double({ min: 0.01, max: 2.8, noNaN: true }),
          (tau, delta) => {
            setTau(model, tau, work);
            const second = (place: number): number => {
              evaluateInDelta(model, place, work);
              return (work.A[A02] ?? Number.NaN) / place ** 2;
            };
            const h = 1e-4 * delta;
            const coarse = (second(delta + 2 * h) - second(delta - 2 * h)) / (4 * h);
            const fine = (second(delta + h) - second(delta - h)) / (2 * h);
            const difference = ((4 * fine - coarse) / 3) * delta ** 3;
            evaluateInDelta(model, delta, work);
            const A = [...work.A].slice(0, 4).map(Math.abs);
            const size = Math.max(1e-3, ...A);
            expect(Math.abs((work.A[A03] ?? Number.NaN) - difference) / size).toBeLessThan(1e-5);
          },
        ),
        seed,
      );
    });
  }
});
