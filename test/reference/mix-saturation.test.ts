// Bubble and dew points against another library's (its version heads each table). Limits: 1e-7, or
// the row's own residual where that is larger, as the library left its fugacities.
import { describe, expect, test } from "vitest";
import { bubbleAtT, bubbleAtP, dewAtP, dewAtT, type MixState } from "../../src/fluids/index.ts";
import { fractionsOf, mixTableNames, readMixTable, zeroShift } from "./mix-table.ts";
import { columnOf, Worst, type Row } from "./read-table.ts";

const quantities = ["T", "p", "rhoL", "rhoV", "xL", "xV", "hL", "hV", "sL", "sV"];
const limits = Object.fromEntries(
  ["", " by p"].flatMap((suffix) => [
    ...quantities.map((quantity) => [`${quantity}${suffix}`, 1e-7] as const),
    [`fugacity${suffix}`, 1e-8] as const,
  ]),
);

describe.each(mixTableNames("sat"))("%s", (name) => {
  const { mix, rows, words } = readMixTable(name);
  const shift = mix.ids.map(zeroShift);
  // A blend with a permanent gas may have several such points at one pressure.
  const alsoByP = !mix.ids.some((id) => id === "R728" || id === "R732");

  test("every row: p, densities, incipient composition, enthalpy and entropy; again from p", () => {
    const worst = new Worst();
    const failed: string[] = [];
    for (const [k, row] of rows.entries()) {
      const z = fractionsOf(row, "z", mix);
      const bubble = words[k]?.kind === "bubble";
      const [T, p] = [columnOf(row, "T"), columnOf(row, "p")];
      const byT = bubble ? bubbleAtT(mix, z, T) : dewAtT(mix, z, T);
      if (byT.kind === "state") compare(byT, row, "", worst);
      else failed.push(`row ${String(k)} at T: ${JSON.stringify(byT)}`);
      if (!alsoByP) continue;
      const byP = bubble ? bubbleAtP(mix, z, p) : dewAtP(mix, z, p);
      if (byP.kind === "state") compare(byP, row, " by p", worst);
      else failed.push(`row ${String(k)} at p: ${JSON.stringify(byP)}`);
    }
    expect(failed).toEqual([]);
    worst.expectBelow(limits);
  });

  function compare(found: MixState, row: Row, suffix: string, worst: Worst): void {
    // A residual r in ln f leaves up to about 2r in ln x and ln p of the incipient phase, and 5r at
    // the bubble points of dissolved permanent gases; ours is below 1e-11.
    const own = Math.max(1e-7, (alsoByP ? 2 : 5) * columnOf(row, "ferr"), columnOf(row, "perr"));
    const note = (what: string, difference: number, gap = 1): void => {
      worst.note(`${what}${suffix}`, difference * (1e-7 / (own * gap)));
    };
    const { T } = found;
    note("T", T / columnOf(row, "T") - 1);
    note("p", found.p / columnOf(row, "p") - 1);
    worst.note(`fugacity${suffix}`, found.fugacityResidual);
    const [liquid, vapour] = found.phases;
    if (!liquid || !vapour) throw new RangeError("a saturation state has two phases");
    const R = 8.314;
    // What a composition off by `own` moves: about the phases' difference, 10 R for a dissolved gas.
    const least = alsoByP ? 1 : 10;
    const gapH = Math.max(least, Math.abs(vapour.h - liquid.h) / (R * T));
    const gapS = Math.max(least, Math.abs(vapour.s - liquid.s) / R);
    for (const [phase, letter, which] of [
      [liquid, "L", "x"],
      [vapour, "V", "y"],
    ] as const) {
      note(`rho${letter}`, (phase.rho * phase.M) / columnOf(row, `rho${letter}`) - 1);
      for (const [i, x] of fractionsOf(row, which, mix).entries()) {
        note(`x${letter}`, ((phase.x[i] ?? 0) - x) / Math.max(x, 1e-3));
      }
      const zero = (of: "h" | "s"): number =>
        phase.x.reduce((sum, x, i) => sum + x * (shift[i]?.[of] ?? 0), 0);
      const h = phase.h + zero("h") - columnOf(row, `hc${letter}`) * phase.M;
      const s = phase.s + zero("s") - columnOf(row, `sc${letter}`) * phase.M;
      note(`h${letter}`, h / (R * T), gapH);
      note(`s${letter}`, s / R, gapS);
    }
  }
});
