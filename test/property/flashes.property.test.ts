// (T, p), (p, h) and (p, s) of every fluid invert one another, from the least temperature to the
// greatest, with no failure. The campaign repeats this with many more states.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  fluid,
  fluidIds,
  statePH,
  statePQ,
  statePS,
  stateTP,
  stateTQ,
  stateTRho,
  type State,
  type StateOutcome,
} from "../../src/fluids/index.ts";
import { surveyFlashes } from "./flash-survey.ts";

function stateOf(outcome: StateOutcome): State {
  if (outcome.kind !== "state") expect.fail(JSON.stringify(outcome));
  return outcome;
}

describe("single-phase flashes", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const { failures, worst } = surveyFlashes(fluid(id), 600, 1);
      expect(failures).toEqual([]);
      // R22's cold saturated liquid is known to 1e-11 in density: nearer than that to saturation,
      // T and ρ give two phases, whose pressure is that of saturation.
      expect(worst.p).toBeLessThan(id === "R22" ? 1e-6 : 2e-9);
      expect(worst["T from p, h"]).toBeLessThan(1e-10);
      expect(worst["T from p, s"]).toBeLessThan(1e-10);
    });
  }
});

describe("two-phase states", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const pure = fluid(id);
      const { critical, info } = pure;
      fc.assert(
        fc.property(
          fc.double({ min: info.Tmin, max: 0.999 * critical.T, noNaN: true }),
          fc.double({ min: 0, max: 1, noNaN: true }),
          (T, q) => {
            const state = stateOf(stateTQ(pure, T, q));
            const others = [
              statePQ(pure, state.p, q),
              statePH(pure, state.p, state.h),
              statePS(pure, state.p, state.s),
            ].map(stateOf);
            for (const other of others) expect(Math.abs(other.T / T - 1)).toBeLessThan(1e-11);
            // At its very ends the dome may be left by one rounding: then the density decides.
            for (const other of [...others, stateOf(stateTRho(pure, T, state.rho))]) {
              if (other.q === null) expect(Math.abs(other.rho / state.rho - 1)).toBeLessThan(1e-8);
              else expect(Math.abs(other.q - q)).toBeLessThan(1e-8);
            }
          },
        ),
        { seed: 3, numRuns: 60 },
      );
    });
  }
});

describe("the neighbourhood of the critical point, to a part in 10⁸", () => {
  for (const id of fluidIds) {
    test(id, () => {
      const pure = fluid(id);
      const { critical } = pure;
      const signed = fc.tuple(fc.double({ min: 2, max: 8, noNaN: true }), fc.boolean());
      fc.assert(
        fc.property(signed, signed, ([a, up], [b, high]) => {
          const T = critical.T * (1 + (up ? 1 : -1) * 10 ** -a);
          const p = critical.p * (1 + (high ? 6 : -6) * 10 ** -b);
          const state = stateOf(stateTP(pure, T, p));
          for (const other of [statePH(pure, p, state.h), statePS(pure, p, state.s)]) {
            // Temperature is well determined there, density as little as nature has it.
            expect(Math.abs(stateOf(other).T / T - 1)).toBeLessThan(1e-8);
            expect(Math.abs(stateOf(other).rho / state.rho - 1)).toBeLessThan(2e-4);
          }
        }),
        { seed: 5, numRuns: 60 },
      );
    });
  }

  test("the critical point itself is a state of every fluid", () => {
    for (const id of fluidIds) {
      const pure = fluid(id);
      const { T, p, rho } = pure.critical;
      const state = stateOf(stateTP(pure, T, p));
      expect(Math.abs(state.rho / rho - 1)).toBeLessThan(2e-3);
      expect(stateOf(stateTRho(pure, T, rho)).h).toBeGreaterThan(-Infinity);
      stateOf(statePH(pure, p, state.h));
    }
  });
});
