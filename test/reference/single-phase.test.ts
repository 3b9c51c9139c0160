// Single-phase states of every fluid against tables of CoolProp 8.0.1dev (commit and date in each
// file). The tables' densities come from that library's own (T, p) flash, which meets p only to about
// 2e-9 (relative, or of ρRT/1000 in liquids): so p is compared at the table's T and ρ with that room,
// and ρ from T and p separately. h, s, cv, cp, w are compared at the table's T and ρ.
import { afterAll, describe, expect, test } from "vitest";
import {
  fluid,
  statePH,
  statePS,
  stateTP,
  stateTRho,
  type StateOutcome,
  type State,
} from "../../src/fluids/index.ts";
import { columnOf, readTable, tableNames, Worst } from "./read-table.ts";

const limits = {
  rho: 1e-9,
  p: 2e-9,
  h: 1e-8,
  s: 1e-8,
  cv: 1e-7,
  cp: 1e-7,
  w: 1e-7,
  "T from p, h": 1e-8,
  "T from p, s": 1e-8,
};

const overall = { away: new Worst(), near: new Worst() };

describe("every row of every single-phase table", () => {
  for (const { id, stem } of tableNames) {
    test(id, () => {
      const pure = fluid(id);
      const { M, R } = pure.info;
      const { rows, words } = readTable(`single-${stem}.csv`);
      expect(rows).toHaveLength(400);
      const worst = new Worst();
      for (const [k, row] of rows.entries()) {
        const at = (column: string): number => columnOf(row, column);
        const [T, p, rho] = [at("T"), at("p"), at("rho") / M];
        const place = Math.abs(T / pure.critical.T - 1) < 0.005 ? "near" : "away";
        const note = (quantity: string, difference: number): void => {
          worst.note(quantity, difference);
          overall[place].note(quantity, difference);
        };
        const fromTP = stateOf(stateTP(pure, T, p));
        const { h, s, cv, cp, w, ...fromTRho } = stateOf(stateTRho(pure, T, rho));
        note("rho", fromTP.rho / rho - 1);
        note("p", (fromTRho.p - p) / Math.max(p, (rho * R * T) / 1000));
        note("h", (h / M - at("h")) / Math.max(1e5, Math.abs(at("h"))));
        note("s", (s / M - at("s")) / Math.max(1e2, Math.abs(at("s"))));
        note("cv", (cv ?? Number.NaN) / M / at("cv") - 1);
        note("cp", (cp ?? Number.NaN) / M / at("cp") - 1);
        note("w", (w ?? Number.NaN) / at("w") - 1);
        expect(fromTP.phase).toBe(words[k]?.phase?.replace("_", "-"));
        note("T from p, h", stateOf(statePH(pure, p, at("h") * M)).T / T - 1);
        note("T from p, s", stateOf(statePS(pure, p, at("s") * M)).T / T - 1);
      }
      worst.expectBelow(limits);
    });
  }
});

afterAll(() => {
  console.info(`single-phase tables, worst: ${overall.away.text()}`);
  console.info(`single-phase tables, worst within 0.5 % of Tc: ${overall.near.text()}`);
});

function stateOf(outcome: StateOutcome): State {
  if (outcome.kind !== "state") expect.fail(JSON.stringify(outcome));
  return outcome;
}
