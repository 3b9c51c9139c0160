// Parts of the vehicle model against printed figures.
import { describe, expect, test } from "vitest";
import { type FluidId, fluid, saturatedPhases, saturationAtP, saturationAtT } from "../../src/fluids/index.ts";
import { propertyPack, pureComposition } from "../../src/vehicle/index.ts";
import { createCriticalFlux } from "../../src/vehicle/pack/critical-flux.ts";
import {
  createIsobar,
  dewPressureAt,
  enthalpyAtEntropy,
  entropyAt,
  liquidEnthalpyAt,
  setPressure,
  temperatureAt,
  vapourEnthalpyAt,
  volumeAt,
} from "../../src/vehicle/pack/isobar.ts";
import { createWeights } from "../../src/vehicle/pack/interpolate.ts";
import { orificeFlux } from "../../src/vehicle/expansion.ts";
import { ziviVoid } from "../../src/vehicle/zivi.ts";

function packOf(id: FluidId) {
  const outcome = propertyPack(pureComposition(id));
  if (outcome.kind !== "pack") throw new Error(outcome.reason);
  return outcome.pack;
}

/**
 * Mass flux of a short tube, kg/(m² s).
 *
 * Source: Payne and O'Neal, HVAC&R Research 10(1) 2004, 73–87; coefficients as carried by an
 * open-source heat-pump program that cites it (second-hand)
 */
function shortTube(id: FluidId, p: number, subcooling: number, x: number, LD: number): number {
  const of = fluid(id);
  const { Tc, pc, M } = of.info;
  const at = saturationAtP(of, p);
  if (at.kind !== "saturated") throw new Error("not saturated");
  const cold = saturationAtT(of, at.T - subcooling);
  if (cold.kind !== "saturated") throw new Error("not saturated");
  const [rhoF, rhoG] = [at.rhoL * M, at.rhoV * M];
  const p3 = (p - cold.p) / pc;
  const p9 = subcooling / Tc;
  const p1 =
    (0.38811 + 11.427 * p3 - 14.194 * p9 + 1.0703 * (rhoG / rhoF) - 0.091928 * Math.log(LD)) /
    (1 + 21.425 * p3 - 581.95 * p9 * p9);
  const liquid = p1 * Math.sqrt(rhoF * pc);
  if (x === 0) return liquid;
  const t6 = 1 / (x / rhoG + (1 - x) / rhoF) / rhoF;
  const t28 = p / pc;
  const ln2 = (value: number): number => Math.log(value) ** 2;
  const t34 = (x / (1 - x)) * Math.sqrt(rhoF / rhoG);
  const numerator =
    1.1831 * t6 -
    1.468 * t6 * t6 -
    0.15285 * ln2(t6) -
    14.639 * ln2((pc - cold.p) / pc) +
    9.8401 * ln2((pc - p) / pc) -
    0.019798 * ln2(LD);
  return (liquid * numerator) / (1 - 1.5348 * t6 - 2.0533 * t34 - 17.195 * t28 ** 3);
}

const tube = { D: 1.7e-3, L: 38.1e-3 };
const area = (Math.PI * tube.D ** 2) / 4;
const LD = tube.L / tube.D;

/** Mass flux of the model's orifice. */
function modelFlux(id: FluidId, p: number, subcooling: number, x: number): number {
  const iso = createIsobar(packOf(id));
  setPressure(iso, p);
  const h =
    x > 0 ? iso.hb + x * (iso.hd - iso.hb) : liquidEnthalpyAt(iso, iso.Tb - subcooling);
  const law = { Cd: 0.7, flash: 0.055, flashX: 0.07, pnc: 0 };
  return orificeFlux(law, iso, h, 3e5, createCriticalFlux());
}

describe("short tube, R134a at 1.6 MPa, 38.1 mm by 1.70 mm", () => {
  test("the correlation gives its check values: 40.9 g/s at 5 K, 24.9 g/s at quality 0.05", () => {
    expect(Math.abs(1000 * area * shortTube("R134a", 1.6e6, 5, 0, LD) - 40.9)).toBeLessThan(0.41);
    expect(Math.abs(1000 * area * shortTube("R134a", 1.6e6, 0, 0.05, LD) - 24.9)).toBeLessThan(0.5);
  });

  test("the model's orifice lies within 10 % of both", () => {
    expect(Math.abs((1000 * area * modelFlux("R134a", 1.6e6, 5, 0)) / 40.9 - 1)).toBeLessThan(0.1);
    expect(Math.abs((1000 * area * modelFlux("R134a", 1.6e6, 0, 0.05)) / 24.9 - 1)).toBeLessThan(
      0.1,
    );
  });

  // Golden: these bounds were set after seeing the result; they hold it, and say how far the two models differ.
  // The worst is at 0.8 MPa and 15 K. R1234yf and hydrocarbons are outside of what the correlation was fitted to.
  test.each([
    ["R134a", 0.08, 0.26],
    ["R1234yf", 0.08, 0.2],
    ["R290", 0.12, 0.37],
  ] as const)("%s, 0.8 to 2.2 MPa, 0.5 to 15 K: rms and worst", (id, rms, worst) => {
    let [sum, count, largest] = [0, 0, 0];
    for (let p = 0.8e6; p <= 2.2e6; p += 0.2e6) {
      for (const subcooling of [0.5, 1, 2, 3, 5, 7, 10, 12, 15]) {
        const off = modelFlux(id, p, subcooling, 0) / shortTube(id, p, subcooling, 0, LD) - 1;
        sum += off * off;
        count++;
        largest = Math.max(largest, Math.abs(off));
      }
    }
    expect(Math.sqrt(sum / count)).toBeLessThan(rms);
    expect(largest).toBeLessThan(worst);
  });
});

test("Zivi's void fraction of R134a at 50 °C, x = 0.3: 0.736 (homogeneous 0.877)", () => {
  const of = fluid("R134a");
  const at = saturationAtT(of, 323.15);
  if (at.kind !== "saturated") throw new Error(at.reason);
  expect(Math.abs(ziviVoid(0.3, at.rhoL, at.rhoV) - 0.736)).toBeLessThan(0.003);
  const homogeneous = 0.3 / at.rhoV / (0.3 / at.rhoV + 0.7 / at.rhoL);
  expect(Math.abs(homogeneous - 0.877)).toBeLessThan(0.003);
  expect(saturatedPhases(of, at).vapour.rho).toBeCloseTo(at.rhoV, 6);
});

/** Cycle at Te 5 °C, Tc 50 °C, superheat 10 K, subcooling 5 K, isentropic efficiency 0.65. */
function cycle(id: FluidId) {
  const pack = packOf(id);
  const [low, high] = [createIsobar(pack), createIsobar(pack)];
  setPressure(low, dewPressureAt(pack, 278.15, createWeights()));
  setPressure(high, dewPressureAt(pack, 323.15, createWeights()));
  const h1 = vapourEnthalpyAt(low, low.Td + 10);
  const h2s = enthalpyAtEntropy(high, entropyAt(low, h1), high.hd);
  const h2 = h1 + (h2s - h1) / 0.65;
  const h3 = liquidEnthalpyAt(high, high.Tb - 5);
  const effect = h1 - h3;
  return {
    COP: effect / (h2 - h1),
    volumetric: effect / volumeAt(low, h1) / 1000,
    discharge: temperatureAt(high, h2) - 273.15,
  };
}

describe("one-stage cycle from the pack against figures computed with another library", () => {
  const base = cycle("R134a");
  test("R134a: discharge 77.9 °C, COP 3.27, 2389 kJ/m³", () => {
    expect(Math.abs(base.discharge - 77.9)).toBeLessThan(1);
    expect(Math.abs(base.COP - 3.27)).toBeLessThan(0.02);
    expect(Math.abs(base.volumetric / 2389 - 1)).toBeLessThan(0.01);
  });
  test.each([
    ["R1234yf", 0.938],
    ["R152a", 0.95],
    ["R290", 1.315],
  ] as const)("%s: volumetric capacity ratio %d", (id, ratio) => {
    expect(Math.abs(cycle(id).volumetric / base.volumetric - ratio)).toBeLessThan(0.01);
  });
});
