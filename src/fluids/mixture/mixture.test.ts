import { describe, expect, test } from "vitest";
import binaryPairs from "../../../data/mixtures/binary-pairs.json";
import departures from "../../../data/mixtures/departures.json";
import { fluid } from "../fluid.ts";
import { fluidIds, isFluidId, type FluidId } from "../fluid-id.ts";
import { stateTP } from "../state.ts";
import { mixStateTP } from "./flash-states.ts";
import { mixture } from "./mixture.ts";
import type { MixOutcome, MixState } from "./mix-state.ts";
import { createPhaseWork } from "./mixture-work.ts";
import { pairKey, parseDepartureFile, parsePairFile } from "./pair-file.ts";
import { placePhase } from "./phase-kernel.ts";

function stateOf(outcome: MixOutcome): MixState {
  if (outcome.kind !== "state") throw new Error(JSON.stringify(outcome));
  return outcome;
}

describe("data files", () => {
  const pairs = parsePairFile(binaryPairs);
  const functions = parseDepartureFile(departures);

  test("hold 183 pairs of known fluids, each with its source, and 17 departure functions", () => {
    expect(pairs.size).toBe(183);
    expect(functions.size).toBe(17);
    for (const [key, { fluid1, fluid2, source, departure, F }] of pairs) {
      expect(isFluidId(fluid1) && isFluidId(fluid2), key).toBe(true);
      expect(source.length, key).toBeGreaterThan(20);
      expect(departure === null, key).toBe(F === 0);
      if (departure !== null) expect(functions.has(departure), key).toBe(true);
    }
  });

  test("every pair of fluids is given or counted as one without parameters", () => {
    const { pairsWithoutPublishedParameters } = binaryPairs as {
      pairsWithoutPublishedParameters: [string, string][];
    };
    const without = new Set(pairsWithoutPublishedParameters.map(([a, b]) => pairKey(a, b)));
    for (const [k, first] of fluidIds.entries()) {
      for (const second of fluidIds.slice(k + 1)) {
        const key = pairKey(first, second);
        expect(pairs.has(key) !== without.has(key), key).toBe(true);
      }
    }
  });

  test("another schema is refused by name", () => {
    expect(() => parsePairFile({ schema: "other/1" })).toThrow("helmholtz-binary-pairs/1");
    expect(() => parseDepartureFile([])).toThrow("an object is accepted");
  });
});

describe("mixture", () => {
  test("is built once", () => {
    expect(mixture(["R290", "R600a"])).toBe(mixture(["R290", "R600a"]));
  });

  test("refuses unknown, repeated, no and nine fluids", () => {
    expect(() => mixture(["R290", "R290"])).toThrow(RangeError);
    expect(() => mixture([])).toThrow(RangeError);
    expect(() => mixture(fluidIds.slice(0, 9))).toThrow(RangeError);
    expect(() => mixture(["R999" as FluidId])).toThrow(RangeError);
  });

  test("says which pairs are estimates, and by which rule", () => {
    expect(mixture(["R290", "R600a"]).estimates).toEqual([]);
    expect(mixture(["R134a", "R728", "R732"]).estimates).toEqual([
      { pair: ["R134a", "R728"], rule: "linear" },
      { pair: ["R134a", "R732"], rule: "linear" },
    ]);
    expect(mixture(["R134a", "R728"], "quadratic").estimates[0]?.rule).toBe("quadratic");
    expect(mixture(["R600a", "R601"]).estimates[0]?.rule).toBe("published-unfitted");
    expect(mixture(["R290", "R600a"]).sources[0]).toContain("GERG-2008");
  });

  test("by the linear rule the reducing point of an estimated pair is linear in composition", () => {
    const mix = mixture(["R134a", "R728"]);
    const phase = createPhaseWork(mix);
    placePhase(mix, phase, 300, [0.3, 0.7]);
    const [a, b] = [fluid("R134a"), fluid("R728")];
    expect(phase.Tr.value).toBeCloseTo(0.3 * a.Tr + 0.7 * b.Tr, 9);
    expect(phase.vr.value).toBeCloseTo(0.3 / a.rhor + 0.7 / b.rhor, 15);
  });

  test.each([
    ["R1234yf", "R134a"],
    ["R290", "R600"],
    ["R744", "R600a"],
  ] as const)("%s with %s is the same in the other order", (first, second) => {
    const one = stateOf(mixStateTP(mixture([first, second]), [0.4, 0.6], 290, 4e5));
    const other = stateOf(mixStateTP(mixture([second, first]), [0.6, 0.4], 290, 4e5));
    expect(other.rho / one.rho).toBeCloseTo(1, 11);
    expect(other.h / one.h).toBeCloseTo(1, 11);
    expect(other.beta).toBeCloseTo(one.beta, 11);
  });

  // The gas constant of R134a's equation is that of 1986, mixtures have the exact one: 1.1e-6 apart.
  test.each([1e5, 2e6])("a mixture of one fluid agrees with the pure fluid at %d Pa", (p) => {
    const pure = stateTP(fluid("R134a"), 300, p);
    const alone = stateOf(mixStateTP(mixture(["R134a"]), [1], 300, p));
    const beside = stateOf(mixStateTP(mixture(["R134a", "R290"]), [1, 0], 300, p));
    if (pure.kind !== "state") throw new Error("a state is expected");
    for (const found of [alone, beside]) {
      expect(Math.abs(found.rho / pure.rho - 1)).toBeLessThan(2e-6);
      expect(Math.abs(found.h / pure.h - 1)).toBeLessThan(2e-6);
      expect(Math.abs((found.phases[0]?.cp ?? 0) / (pure.cp ?? 1) - 1)).toBeLessThan(2e-6);
    }
  });
});

describe("thermodynamic identities of a blend, by central differences", () => {
  const mix = mixture(["R32", "R125", "R134a"]);
  const z = [0.3, 0.2, 0.5];

  test.each([
    [300, 3e5],
    [290, 3e6],
    [330, 1.5e6],
  ])("at %d K and %d Pa: cp, cv, w, dh = T ds + v dp", (T, p) => {
    const at = (temperature: number, pressure: number): MixState =>
      stateOf(mixStateTP(mix, z, temperature, pressure));
    const here = at(T, p);
    const [dT, dp] = [1e-3, 1e-4 * p];
    const slope = (of: "h" | "s" | "rho"): readonly [number, number] => [
      (at(T + dT, p)[of] - at(T - dT, p)[of]) / (2 * dT),
      (at(T, p + dp)[of] - at(T, p - dp)[of]) / (2 * dp),
    ];
    const [hT, hp] = slope("h");
    const [sT, sp] = slope("s");
    const [rhoT, rhop] = slope("rho");
    const [phase] = here.phases;
    expect(hT / (phase?.cp ?? 0)).toBeCloseTo(1, 6);
    expect((T * sT) / hT).toBeCloseTo(1, 6);
    // The components' gas constants are 1e-6 off the mixture's: their ideal parts do not cancel quite.
    expect((T * sp + 1 / here.rho) / hp).toBeCloseTo(1, 4);
    const cv = hT - (T * rhoT * rhoT) / (here.rho * here.rho * rhop);
    expect(cv / (phase?.cv ?? 0)).toBeCloseTo(1, 5);
    const w2 = hT / (cv * rhop * here.M);
    expect(Math.sqrt(w2) / (phase?.w ?? 0)).toBeCloseTo(1, 5);
  });
});
