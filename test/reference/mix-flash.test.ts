// Flashes at (T,p), (p,h) and (p,s) against another library's (its version heads each table).
// Limits: 1e-7, vapour fraction 1e-6, or what the row's own residual `resid` leaves uncertain.
//
// Two kinds of rows are not as their columns say; both are counted, and shown to be so:
// - the density of some liquids is a false root of the equations inside the two-phase dome: it is
//   lower than that of the saturated liquid at the same temperature though the pressure is higher;
// - in some near-azeotropic splits x and y, Q and 1 − Q are exchanged.
import { describe, expect, test } from "vitest";
import {
  bubbleAtT,
  mixStatePH,
  mixStatePS,
  mixStateTP,
  type Mixture,
  type MixOutcome,
  type MixState,
} from "../../src/fluids/index.ts";
import { fractionsOf, mixTableNames, readMixTable, zeroShift } from "./mix-table.ts";
import { columnOf, Worst, type Row } from "./read-table.ts";

/** Rows whose density is a false root, and rows with phases exchanged, by table. */
const falseRoots: Readonly<Record<string, number>> = {
  "mix-flash-R1270+R290.csv": 1,
  "mix-flash-R134a+R1234zeE.csv": 1,
  "mix-flash-R134a+R152a.csv": 4,
  "mix-flash-R134a+R290.csv": 1,
  "mix-flash-R134a+R728.csv": 3,
  "mix-flash-R134a+R732.csv": 1,
  "mix-flash-R290+R600a.csv": 1,
  "mix-flash-R32+R125.csv": 1,
};
const exchanged: Readonly<Record<string, number>> = {
  "mix-flash-R134a+R290.csv": 3,
  "mix-flash-R134a+R600a.csv": 16,
};

describe.each(mixTableNames("flash"))("%s", (name) => {
  const { mix, rows, words } = readMixTable(name);
  const shift = mix.ids.map(zeroShift);

  test("every row at T and p, then again from p and h, p and s", () => {
    const worst = new Worst();
    const failed: string[] = [];
    let [roots, names] = [0, 0];
    for (const [k, row] of rows.entries()) {
      const z = fractionsOf(row, "z", mix);
      const [T, p] = [columnOf(row, "T"), columnOf(row, "p")];
      const found = mixStateTP(mix, z, T, p);
      if (found.kind !== "state" || (found.phase === "two-phase") !== (words[k]?.phase === "two-phase")) {
        failed.push(`row ${String(k)}: ${JSON.stringify(found)}`);
        continue;
      }
      const isFalse = found.phase !== "two-phase" && isFalseRoot(mix, found, row);
      const isExchanged = found.phase === "two-phase" && isOtherWayRound(found, row, mix);
      if (isFalse) roots++;
      if (isExchanged) names++;
      if (!isFalse) compare(found, row, { mix, isExchanged, worst });
      const target = isFalse ? { h: found.h, s: found.s } : tableCaloric(found, row);
      const check = (again: MixOutcome, what: string): void => {
        if (again.kind !== "state") failed.push(`row ${String(k)} ${what}: ${JSON.stringify(again)}`);
        else {
          const resid = Math.max(1e-7, columnOf(row, "resid"));
          worst.note(`T by ${what}`, (again.T / T - 1) * (1e-7 / resid));
          const slack = uncertainty(found, row);
          worst.note(`beta by ${what}`, (again.beta - found.beta) * (1e-6 / Math.max(1e-6, slack)));
        }
      };
      check(mixStatePH(mix, z, p, target.h), "h");
      check(mixStatePS(mix, z, p, target.s), "s");
    }
    expect(failed).toEqual([]);
    worst.expectBelow({
      rho: 1e-7, h: 1e-7, s: 1e-7, x: 1e-7, y: 1e-7, beta: 1e-6, cp: 1e-7, w: 1e-7, fugacity: 1e-8,
      "T by h": 1e-7, "T by s": 1e-7, "beta by h": 1e-6, "beta by s": 1e-6,
    });
    expect(roots).toBe(falseRoots[name] ?? 0);
    expect(names).toBe(exchanged[name] ?? 0);
  });

  /** The table's h and s, per mole, with our zero. */
  function tableCaloric(found: MixState, row: Row): { readonly h: number; readonly s: number } {
    const sum = (which: "h" | "s"): number =>
      found.z.reduce((total, z, i) => total + z * (shift[i]?.[which] ?? 0), 0);
    return {
      h: columnOf(row, "hc") * found.M - sum("h"),
      s: columnOf(row, "sc") * found.M - sum("s"),
    };
  }

  function compare(
    found: MixState,
    row: Row,
    { isExchanged, worst }: { mix: Mixture; isExchanged: boolean; worst: Worst },
  ): void {
    const slack = uncertainty(found, row);
    const table = tableCaloric(found, row);
    const [first, second] = found.phases;
    if (!first) throw new RangeError("a state has a phase");
    // A vapour fraction off by `slack` moves the bulk properties by so much of the phases' difference.
    const note = (what: string, difference: number, gap: number): void => {
      worst.note(what, difference * (1e-7 / Math.max(1e-7, slack * Math.abs(gap))));
    };
    const R = 8.314;
    const { rho, T } = found;
    note("rho", (rho * found.M) / columnOf(row, "rho") - 1, second ? rho / second.rho : 0);
    note("h", (found.h - table.h) / (R * T), second ? (second.h - first.h) / (R * T) : 0);
    note("s", (found.s - table.s) / R, second ? (second.s - first.s) / R : 0);
    worst.note("fugacity", found.fugacityResidual);
    if (!second) {
      worst.note("cp", first.cp / first.M / columnOf(row, "cpc") - 1);
      worst.note("w", first.w / columnOf(row, "wc") - 1);
      return;
    }
    const Q = columnOf(row, "Q");
    const beta = isExchanged ? 1 - found.beta : found.beta;
    worst.note("beta", (beta - Q) * (1e-6 / Math.max(1e-6, slack)));
    const [x, y] = isExchanged ? [second.x, first.x] : [first.x, second.x];
    for (const [letter, own] of [["x", x], ["y", y]] as const) {
      for (const [i, value] of fractionsOf(row, letter, mix).entries()) {
        note(letter, value - (own[i] ?? 0), 1);
      }
    }
  }
});

/** How far the vapour fraction can be off for the row's residual: near an azeotrope y − x is small. */
function uncertainty(found: MixState, row: Row): number {
  const [liquid, vapour] = found.phases;
  if (!liquid || !vapour) return 0;
  const spread = found.z.reduce((sum, z, i) => {
    const gap = (vapour.x[i] ?? 0) - (liquid.x[i] ?? 0);
    return sum + (gap * gap) / z;
  }, 0);
  return (3 * columnOf(row, "resid")) / Math.min(1, spread);
}

/** Whether the row's density differs from ours and contradicts the bubble point at its temperature. */
function isFalseRoot(mix: Mixture, found: MixState, row: Row): boolean {
  const rho = columnOf(row, "rho") / found.M;
  if (Math.abs(rho / found.rho - 1) < 1e-6) return false;
  const bubble = bubbleAtT(mix, found.z, found.T);
  const saturated = bubble.kind === "state" ? bubble.phases[0]?.rho : undefined;
  if (bubble.kind !== "state" || saturated === undefined) return false;
  return found.p > bubble.p && rho < saturated && found.rho > saturated;
}

function isOtherWayRound(found: MixState, row: Row, mix: Mixture): boolean {
  const x = fractionsOf(row, "x", mix);
  const off = (k: number): number => Math.abs((found.phases[k]?.x[0] ?? 0) - (x[0] ?? 0));
  return off(1) < off(0);
}
