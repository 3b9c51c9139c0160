// Saturation of every fluid against tables of CoolProp 8.0.1dev (commit and date in each file).
// Limits away from the critical point are the project's targets; within 0.5 % of Tc they state
// what is reached on these rows.
import { afterAll, describe, expect, test } from "vitest";
import { fluid, saturatedPhases, saturationAtP, saturationAtT } from "../../src/fluids/index.ts";
import { columnOf, readTable, tableNames, Worst } from "./read-table.ts";

const target = { p: 1e-9, rho: 1e-9, T: 1e-9, h: 1e-8, s: 1e-8, cp: 1e-7, w: 1e-7 };
/** On rows within 0.5 % of Tc the same limits hold, with room for this machine's last bits. */
const nearCritical = { p: 1e-11, rho: 1e-10, T: 1e-10, h: 1e-8, s: 1e-8, cp: 1e-7, w: 1e-9 };

const overall = { away: new Worst(), near: new Worst() };

describe("every row of every saturation table", () => {
  for (const { id, stem } of tableNames) {
    test(id, () => {
      const pure = fluid(id);
      const { M } = pure.info;
      const { rows } = readTable(`saturation-${stem}.csv`);
      expect(rows).toHaveLength(200);
      const worst = { away: new Worst(), near: new Worst() };
      for (const row of rows) {
        const at = (column: string): number => columnOf(row, column);
        const place = at("T") > 0.995 * pure.critical.T ? "near" : "away";
        const note = (quantity: string, difference: number): void => {
          worst[place].note(quantity, difference);
          overall[place].note(quantity, difference);
        };
        const saturated = saturationAtT(pure, at("T"));
        const fromP = saturationAtP(pure, at("p"));
        if (saturated.kind !== "saturated" || fromP.kind !== "saturated") {
          expect.fail(`${id} does not saturate at ${String(at("T"))} K`);
        }
        note("p", saturated.p / at("p") - 1);
        note("rho", (saturated.rhoL * M) / at("rhoL") - 1);
        note("rho", (saturated.rhoV * M) / at("rhoV") - 1);
        note("T", fromP.T / at("T") - 1);
        const { liquid, vapour } = saturatedPhases(pure, saturated);
        for (const [phase, mark] of [
          [liquid, "L"],
          [vapour, "V"],
        ] as const) {
          // 1e-3 J/kg in h is allowed beside 1e-8 of the value; likewise 1e-6 J/(kg K) in s.
          note("h", (phase.h / M - at(`h${mark}`)) / Math.max(1e5, Math.abs(at(`h${mark}`))));
          note("s", (phase.s / M - at(`s${mark}`)) / Math.max(1e2, Math.abs(at(`s${mark}`))));
          note("cp", phase.cp / M / at(`cp${mark}`) - 1);
          note("w", phase.w / at(`w${mark}`) - 1);
        }
      }
      worst.away.expectBelow(target);
      worst.near.expectBelow(nearCritical);
    });
  }
});

afterAll(() => {
  console.info(`saturation tables, worst to 0.995 Tc: ${overall.away.text()}`);
  console.info(`saturation tables, worst nearer to Tc: ${overall.near.text()}`);
});
