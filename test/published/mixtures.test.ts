// Check values printed by the authors of the mixture models, each with its source in the table, and
// boiling points of designated blends.
import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import {
  blendByMass,
  blendInfo,
  bubbleAtP,
  dewAtP,
  isFluidId,
  mixture,
  type MixOutcome,
} from "../../src/fluids/index.ts";
import { createPhaseWork } from "../../src/fluids/mixture/mixture-work.ts";
import { evaluatePhase, placePhase } from "../../src/fluids/mixture/phase-kernel.ts";

// The paper of 2022 used an equation of R1234yf before its publication: 1e-8 is what it allows.
const tolerances: Readonly<Record<string, number>> = {
  "R1234yf+R1234ze(E)": 2e-8,
  "R1234yf+R134a": 2e-8,
};

describe("residual Helmholtz energy of binary models, to 1e-13 of the printed value", () => {
  const text = readFileSync(new URL("published-check-values.csv", import.meta.url), "utf8");
  const { data } = Papa.parse(text, { comments: "#", skipEmptyLines: true });
  const columns = data[0] ?? [];
  const rows = data.slice(1).map((cells) => (name: string) => cells[columns.indexOf(name)] ?? "");
  const ofMixtures = rows.filter((row) => row("system").includes("+"));

  test("are eight", () => {
    expect(ofMixtures).toHaveLength(8);
  });

  for (const row of ofMixtures) {
    test(`${row("system")} at ${row("T")} K: ${row("published")} (${row("source")})`, () => {
      const mix = mixture(row("system").split("+").filter(isFluidId));
      const phase = createPhaseWork(mix);
      placePhase(mix, phase, Number(row("T")), row("x").split(";").map(Number));
      evaluatePhase(mix, phase, Number(row("rho_molar")));
      const off = (phase.A[0] ?? 0) / Number(row("published")) - 1;
      expect(Math.abs(off)).toBeLessThan(tolerances[row("system")] ?? 1e-13);
    });
  }
});

// ANSI/ASHRAE 34 table 4-2, bubble and dew point at 101.325 kPa in °C. Recalled, so no independent
// evidence of the digits; the models behind that table are older than these. Within 0.5 K.
describe("recalled: bubble and dew point at normal pressure", () => {
  const celsius = (outcome: MixOutcome): number =>
    outcome.kind === "state" ? outcome.T - 273.15 : NaN;

  test.each([
    ["R404A", -46.6, -45.8],
    ["R407C", -43.8, -36.7],
    ["R410A", -51.6, -51.5],
    ["R513A", -29.2, -29.1],
    ["R441A", -41.9, -20.4],
  ])("%s: %d and %d °C", (name, bubble, dew) => {
    const { mixture: mix, z } = blendByMass(blendInfo(name)?.shares ?? []);
    expect(Math.abs(celsius(bubbleAtP(mix, z, 101325)) - bubble)).toBeLessThan(0.5);
    expect(Math.abs(celsius(dewAtP(mix, z, 101325)) - dew)).toBeLessThan(0.5);
  });
});
