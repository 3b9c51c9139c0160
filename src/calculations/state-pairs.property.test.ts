import fc from "fast-check";
import { expect, test } from "vitest";
import {
  fluid as fluidOf,
  fluidIds,
  type State,
  type StateOutcome,
  stateTP,
  stateTQ,
} from "../fluids/index.ts";
import { solverOf } from "./state-pairs.ts";

const seed = 3141;

function stateOf(outcome: StateOutcome): State {
  if (outcome.kind === "failed") throw new Error(JSON.stringify(outcome));
  return outcome;
}

function back(
  id: (typeof fluidIds)[number],
  state: State,
  first: "T" | "p",
  second: "s" | "rho",
): State {
  const solver = solverOf(first, second);
  if (!solver) throw new Error("no solver");
  return stateOf(solver.solve(fluidOf(id), state[first], state[second]));
}

const share = fc.double({ min: 0, max: 1, noNaN: true });
// Water contracts on warming below 4 °C: there (T, s) and (p, rho) fix no single state.
const anyFluid = fc.constantFrom(...fluidIds.filter((id) => id !== "R718"));

/** Any single-phase state, log-uniform in pressure from 1 kPa to the limit of the equation. */
const anyState = fc.tuple(anyFluid, share, share).map(([id, t, x]) => {
  const { info } = fluidOf(id);
  const T = info.Tmin + 0.5 + t * (info.Tmax - info.Tmin - 1);
  const p = Math.exp(Math.log(1e3) + x * Math.log((0.99 * info.pmax) / 1e3));
  return { id, outcome: stateTP(fluidOf(id), T, p) };
});

test.each([
  ["T", "s"],
  ["p", "rho"],
] as const)("(%s, %s) finds the state again", (first, second) => {
  fc.assert(
    fc.property(anyState, ({ id, outcome }) => {
      fc.pre(outcome.kind === "state");
      const state = stateOf(outcome);
      const found = back(id, state, first, second);
      expect(found.T / state.T).toBeCloseTo(1, 8);
      expect(found.rho / state.rho).toBeCloseTo(1, 6);
    }),
    { seed, numRuns: 1000 },
  );
});

test("the same in two phases", () => {
  fc.assert(
    fc.property(anyFluid, share, share, (id, t, q) => {
      const { info, critical } = fluidOf(id);
      const T = info.Tmin + 0.1 + t * (0.98 * critical.T - info.Tmin - 0.1);
      const state = stateOf(stateTQ(fluidOf(id), T, q));
      expect(back(id, state, "T", "s").q ?? NaN).toBeCloseTo(q, 6);
      expect(back(id, state, "p", "rho").T / T).toBeCloseTo(1, 8);
    }),
    { seed, numRuns: 1000 },
  );
});
