// Packs against the equations of state they are made from, at random states between the nodes.
import { describe, expect, test } from "vitest";
import {
  bubbleAtP,
  dewAtP,
  fluid as fluidOf,
  mixStatePH,
  mixture,
  saturationAtP,
  statePH,
} from "../../fluids/index.ts";
import { createRandom } from "../../numerics/index.ts";
import { buildPack } from "./build-pack.ts";
import { type Composition, molar } from "./composition.ts";
import {
  bubblePressureAt,
  chiAt,
  createIsobar,
  dewPressureAt,
  enthalpyAtEntropy,
  entropyAt,
  liquidEnthalpyAt,
  setPressure,
  temperatureAt,
  vapourEnthalpyAt,
  volumeAt,
  wetQuality,
} from "./isobar.ts";
import { createWeights } from "./interpolate.ts";
import type { Pack } from "./pack.ts";

const compositions: readonly Composition[] = [
  ...(["R134a", "R1234yf", "R152a", "R290", "R600a"] as const).map((id) => ({
    ids: [id],
    fractions: [1],
  })),
  { ids: ["R290", "R600a"], fractions: [0.6, 0.4] },
  { ids: ["R134a", "R600a"], fractions: [0.8, 0.2] },
  { ids: ["R134a", "R1234yf"], fractions: [0.5, 0.5] },
  { ids: ["R290", "R600", "R600a"], fractions: [0.5, 0.4, 0.1] },
];

function packOf(composition: Composition): Pack {
  const outcome = buildPack(composition);
  if (outcome.kind !== "pack") throw new Error(outcome.reason);
  return outcome.pack;
}

interface Truth {
  readonly T: number;
  readonly v: number;
  readonly s: number;
}

/** The state of the equation, per kg. */
function truth(composition: Composition, p: number, h: number): Truth {
  const { z, M } = molar(composition);
  const [id] = composition.ids;
  if (composition.ids.length === 1 && id) {
    const state = statePH(fluidOf(id), p, h * M);
    if (state.kind !== "state") throw new Error(state.reason);
    return { T: state.T, v: 1 / (state.rho * M), s: state.s / M };
  }
  const state = mixStatePH(mixture(composition.ids), z, p, h * M);
  if (state.kind !== "state") throw new Error(state.reason);
  return { T: state.T, v: 1 / (state.rho * M), s: state.s / M };
}

function ends(
  composition: Composition,
  p: number,
): { Tb: number; Td: number; hb: number; hd: number } {
  const { z, M } = molar(composition);
  const mix = mixture(composition.ids);
  const [id] = composition.ids;
  if (composition.ids.length === 1 && id) {
    const at = saturationAtP(fluidOf(id), p);
    if (at.kind !== "saturated") throw new Error(at.reason);
  }
  const [bubble, dew] = [bubbleAtP(mix, z, p), dewAtP(mix, z, p)];
  if (bubble.kind !== "state" || dew.kind !== "state") throw new Error("no saturation");
  return { Tb: bubble.T, Td: dew.T, hb: bubble.h / M, hd: dew.h / M };
}

describe.each(compositions.map((each) => [each.ids.join("/"), each] as const))("%s", (_, of) => {
  const pack = packOf(of);
  const iso = createIsobar(pack);
  const random = createRandom(31);
  const between = (from: number, to: number): number => from + (to - from) * random();
  const pressures = Array.from({ length: 120 }, () =>
    Math.exp(between(Math.log(1.2 * pack.pMin), Math.log(0.97 * pack.pMax))),
  );

  test("bubble and dew points", () => {
    for (const p of pressures) {
      setPressure(iso, p);
      const at = ends(of, p);
      // Gas constants of equations and of mixtures differ by 1e-6: 1e-3 K at most.
      expect(Math.abs(iso.Tb - at.Tb)).toBeLessThan(0.006);
      expect(Math.abs(iso.Td - at.Td)).toBeLessThan(0.006);
      // The largest errors are at the very top of the tables, near the critical point.
      const room = p < 0.85 * pack.pMax ? 250 : 800;
      expect(Math.abs(iso.hb - at.hb)).toBeLessThan(room);
      expect(Math.abs(iso.hd - at.hd)).toBeLessThan(room);
      expect(Math.abs(dewPressureAt(pack, at.Td, createWeights()) / p - 1)).toBeLessThan(2e-4);
      expect(Math.abs(bubblePressureAt(iso, at.Tb) / p - 1)).toBeLessThan(2e-4);
    }
  });

  test("superheated vapour to 100 K", () => {
    for (const p of pressures) {
      setPressure(iso, p);
      const h = iso.hd + between(0, 0.5) * pack.dhMax;
      const at = truth(of, p, h);
      if (at.T > pack.Tmax) continue;
      expect(Math.abs(temperatureAt(iso, h) - at.T)).toBeLessThan(0.13);
      expect(Math.abs(volumeAt(iso, h) / at.v - 1)).toBeLessThan(2e-3);
      expect(Math.abs(entropyAt(iso, h) - at.s)).toBeLessThan(0.3);
    }
  });

  test("boiling", () => {
    for (const p of pressures) {
      setPressure(iso, p);
      const h = iso.hb + between(0.002, 0.998) * (iso.hd - iso.hb);
      const at = truth(of, p, h);
      expect(Math.abs(temperatureAt(iso, h) - at.T)).toBeLessThan(0.02);
      expect(Math.abs(volumeAt(iso, h) / at.v - 1)).toBeLessThan(4e-3);
      expect(Math.abs(entropyAt(iso, h) - at.s)).toBeLessThan(0.3);
      const quality = wetQuality(iso, chiAt(iso, h));
      expect(quality).toBeGreaterThanOrEqual(-1e-9);
      expect(quality).toBeLessThanOrEqual(1 + 1e-9);
    }
  });

  test("compressed liquid, within what leaving out the pressure costs", () => {
    for (const p of pressures.filter((each) => each > 5e5)) {
      setPressure(iso, p);
      const T = iso.Tb - between(0, 20);
      const h = liquidEnthalpyAt(iso, T);
      expect(Math.abs(temperatureAt(iso, h) - T)).toBeLessThan(0.005);
      const at = truth(of, p, h);
      expect(Math.abs(temperatureAt(iso, h) - at.T)).toBeLessThan(1.6);
      expect(Math.abs(volumeAt(iso, h) / at.v - 1)).toBeLessThan(0.035);
    }
  });

  test("entropy and temperature invert", () => {
    // At the bubble line two tables meet: 0.2 % of the latent heat there, far less elsewhere.
    const small = 400;
    for (const p of pressures) {
      setPressure(iso, p);
      const h = iso.hb + between(-0.05, 1.4) * (iso.hd - iso.hb);
      expect(Math.abs(enthalpyAtEntropy(iso, entropyAt(iso, h), iso.hd) - h)).toBeLessThan(small);
      const gas = iso.hd + between(0, 0.4) * pack.dhMax;
      expect(Math.abs(vapourEnthalpyAt(iso, temperatureAt(iso, gas)) - gas)).toBeLessThan(small);
    }
  });
});

test("a blend that is nearly pure is nearly the pure fluid", () => {
  const pure = createIsobar(packOf({ ids: ["R290"], fractions: [1] }));
  const blend = createIsobar(packOf({ ids: ["R290", "R600a"], fractions: [0.99999, 0.00001] }));
  for (const p of [2e5, 8e5, 2.5e6]) {
    setPressure(pure, p);
    setPressure(blend, p);
    expect(Math.abs(pure.Td - blend.Td)).toBeLessThan(0.01);
    expect(Math.abs(pure.hd - blend.hd)).toBeLessThan(60);
  }
});

test("what has no pack says why", () => {
  const air = buildPack({ ids: ["R728", "R732"], fractions: [0.5, 0.5] });
  if (air.kind === "pack") expect(air.pack.dewT.from).toBeLessThan(120);
  else expect(air.reason).toBeTruthy();
  const spoiled = buildPack({ ids: ["R134a", "R728"], fractions: [0.7, 0.3] });
  if (spoiled.kind === "pack") expect(spoiled.pack.pMax).toBeLessThan(3.6e6);
  else expect(["narrow-range", "not-converged", "no-two-phases"]).toContain(spoiled.reason);
});
