// Bubble and dew points against another library's (its version heads each table). Limits: 1e-7, or
// the row's own residual where that is larger, as the library left its fugacities.
import { describe, expect, test } from "vitest";
import { bubbleAtT, bubbleAtP, dewAtP, dewAtT, type MixState } from "../../src/fluids/index.ts";
import { fractionsOf, mixTableNames, readMixTable, zeroShift } from "./mix-table.ts";
import { columnOf, Worst } from "./read-table.ts";

describe.each(mixTableNames("sat"))("%s", (name) => {
  const { mix, rows, words } = readMixTable(name);
  const shift = mix.ids.map(zeroShift);

  test("every row: p, densities, incipient composition, enthalpy and entropy; again from p", () => {
    const worst = new Worst();
    const failed: string[] = [];
    for (const [k, row] of rows.entries()) {
      const z = fractionsOf(row, "z", mix);
      const bubble = words[k]?.kind === "bubble";
      const [T, p] = [columnOf(row, "T"), columnOf(row, "p")];
      const own = Math.max(1e-7, columnOf(row, "ferr"), columnOf(row, "perr"));
      const note = (what: string, difference: number): void => {
        worst.note(what, difference * (1e-7 / own));
      };
      const check = (found: MixState, suffix: string): void => {
        note(`T${suffix}`, found.T / T - 1);
        note(`p${suffix}`, found.p / p - 1);
        worst.note(`fugacity${suffix}`, found.fugacityResidual);
        const [l, v] = found.phases;
        if (!l || !v) throw new RangeError("a saturation state has two phases");
        for (const [phase, letter, fractions] of [
          [l, "L", fractionsOf(row, "x", mix)],
          [v, "V", fractionsOf(row, "y", mix)],
        ] as const) {
          note(`rho${letter}${suffix}`, (phase.rho * phase.M) / columnOf(row, `rho${letter}`) - 1);
          for (const [i, x] of fractions.entries()) {
            note(`x${letter}${suffix}`, ((phase.x[i] ?? 0) - x) / Math.max(x, 1e-3));
          }
          const [h0, s0] = [0, 1].map((which) =>
            phase.x.reduce((sum, x, i) => sum + x * ((which === 0 ? shift[i]?.h : shift[i]?.s) ?? 0), 0),
          );
          const h = (phase.h + (h0 ?? 0)) / phase.M;
          const s = (phase.s + (s0 ?? 0)) / phase.M;
          note(`h${letter}${suffix}`, (h - columnOf(row, `hc${letter}`)) / (8.314 * T / phase.M));
          note(`s${letter}${suffix}`, (s - columnOf(row, `sc${letter}`)) / (8.314 / phase.M));
        }
      };
      const byT = bubble ? bubbleAtT(mix, z, T) : dewAtT(mix, z, T);
      if (byT.kind === "state") check(byT, "");
      else failed.push(`row ${String(k)} at T: ${JSON.stringify(byT)}`);
      const byP = bubble ? bubbleAtP(mix, z, p) : dewAtP(mix, z, p);
      if (byP.kind === "state") check(byP, " by p");
      else failed.push(`row ${String(k)} at p: ${JSON.stringify(byP)}`);
    }
    if (process.env.SHOW) console.log(name, worst.text(), failed.length, failed.slice(0, 3).join("\n"));
    expect(failed).toEqual([]);
  });
});
