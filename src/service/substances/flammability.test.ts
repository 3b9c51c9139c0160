import { describe, expect, test } from "vitest";
import { type FluidId, fluidInfo } from "../../fluids/index.ts";
import { molarMass, type Part, toMoles } from "./composition.ts";
import { flammabilityOf, type Limits } from "./flammability.ts";
import { massPerVolume } from "./le-chatelier.ts";
import { ratedBlends } from "./named-blends.ts";

function blendOf(name: string) {
  const blend = ratedBlends.find((known) => known.blend === name);
  if (!blend) throw new Error(name);
  return blend;
}
const rated = (name: string) => flammabilityOf(toMoles(blendOf(name).parts), blendOf(name));
const pure = (fluid: FluidId) => flammabilityOf([{ fluid, fraction: 1 }]);
const moles = (parts: Partial<Record<FluidId, number>>): Part[] =>
  Object.entries(parts).map(([fluid, fraction]) => ({ fluid: fluid as FluidId, fraction }));

function limitsOf(outcome: ReturnType<typeof flammabilityOf>): Limits {
  if (outcome.kind !== "limits") throw new Error(JSON.stringify(outcome));
  return outcome.limits;
}

describe("conversions", () => {
  // 2.1 % by volume of propane at 25 °C and 101.325 kPa is 0.0379 kg/m3 (arithmetic on ASHRAE 34), within 1 %.
  test("propane", () => {
    expect(massPerVolume(0.021, fluidInfo("R290").M) / 0.0379).toBeCloseTo(1, 2);
  });

  // Arithmetic: 50/40/10 % by mass of R290/R600/R600a, within 0.0005.
  test("mass to mole fractions", () => {
    const parts = toMoles(blendOf("HC 50/40/10").parts);
    for (const [i, expected] of [0.5686, 0.3451, 0.0863].entries()) {
      expect(Math.abs((parts[i]?.fraction ?? NaN) - expected)).toBeLessThan(0.0005);
    }
    expect(Math.abs(1000 * molarMass(parts) - 50.147)).toBeLessThan(0.0005);
  });
});

describe("Le Chatelier's rule", () => {
  // Arithmetic on the limits of ASHRAE 34 and EN 378-1: 2.01 and 1.87 % by volume, within 0.02.
  test("50/40/10", () => {
    const outcome = rated("HC 50/40/10");
    expect(outcome).toMatchObject({ kind: "limits", rule: "le-chatelier", class: null });
    const { ashrae, isoEn, lowest } = limitsOf(outcome);
    expect(Math.abs(100 * (ashrae?.volume ?? NaN) - 2.01)).toBeLessThan(0.02);
    expect(Math.abs(100 * (isoEn?.volume ?? NaN) - 1.87)).toBeLessThan(0.02);
    expect(lowest).toEqual(isoEn);
    // The same rule on mass fractions and kg/m3 gives 0.0415: the tables' own rounding.
    expect(Math.abs((ashrae?.mass ?? NaN) - 0.0412)).toBeLessThan(0.0001);
  });

  // ASHRAE 34 (from memory) lists R441A with 20 000 ppm and 41 g/m3; the rule gives 2.07 % by volume.
  test("R441A", () => {
    const outcome = rated("R441A");
    expect(outcome).toMatchObject({ kind: "limits", rule: "le-chatelier", class: "A3" });
    const { ashrae, blend, lowest } = limitsOf(outcome);
    expect(Math.abs(100 * (ashrae?.volume ?? NaN) - 2.07)).toBeLessThan(0.005);
    expect(Math.abs((ashrae?.mass ?? NaN) - 0.041)).toBeLessThan(0.0005);
    expect(blend).toEqual({ volume: 0.02, mass: 0.041 });
    expect(lowest.volume).toBeLessThan(0.02);
  });

  test("two tables of the same fuel stay apart, the lower warns", () => {
    // R600: 20 000 ppm in ASHRAE 34, 0.038 kg/m3 in EN 378-1; R600a: 16 000 ppm and 0.043 kg/m3.
    expect(limitsOf(pure("R600")).lowest.mass).toBe(0.038);
    expect(limitsOf(pure("R600a")).lowest).toEqual({ volume: 0.016, mass: 0.038 });
    expect(limitsOf(pure("R600a")).isoEn?.volume).toBeCloseTo(0.0181, 4);
  });

  test("a blend of one fuel with itself in all but name is that fuel", () => {
    const { ashrae } = limitsOf(flammabilityOf(moles({ R290: 1 - 1e-9, R600a: 1e-9 })));
    expect(ashrae?.volume).toBeCloseTo(0.021, 9);
  });
});

describe("where only tests count there is no number", () => {
  test.each([
    [{ R134a: 0.7, R290: 0.3 }, "part-that-does-not-burn"],
    [{ R290: 0.9, R728: 0.1 }, "part-that-does-not-burn"],
    [{ R290: 0.9, R732: 0.1 }, "oxygen"],
    [{ R1234yf: 0.5, R290: 0.5 }, "fluoro-olefin"],
    [{ R152a: 0.5, R600a: 0.5 }, "unlike-fuels"],
    [{ RE170: 0.5, R290: 0.5 }, "unlike-fuels"],
  ])("%o: %s", (parts, because) => {
    const outcome = flammabilityOf(moles(parts));
    expect(outcome).toMatchObject({ kind: "only-tests-count", class: null, because });
  });

  // ASHRAE 34 table 4-2, from memory.
  test.each([
    ["R444A", "A2L"],
    ["R516A", "A2L"],
    ["R406A", "A2"],
    ["R430A", "A3"],
  ])("%s keeps the class of its table, %s", (name, safety) => {
    expect(rated(name)).toMatchObject({ kind: "only-tests-count", class: safety });
  });

  test.each(["R513A", "R450A", "R414B", "R410A"])("%s is listed in class 1", (name) => {
    expect(rated(name)).toEqual({ kind: "does-not-burn", class: "A1" });
  });
});

describe("what is not known", () => {
  test("a shaky or missing class is no class", () => {
    expect(pure("R1132(E)")).toMatchObject({ kind: "unknown", unknown: ["R1132(E)"] });
    expect(flammabilityOf(moles({ R1123: 0.4, R32: 0.6 }))).toMatchObject({ kind: "unknown" });
  });

  test("parts that do not burn make a mixture that does not, unlisted", () => {
    const outcome = flammabilityOf(moles({ R134a: 0.9, R728: 0.1 }));
    expect(outcome).toEqual({ kind: "does-not-burn", class: null });
    expect(pure("R732")).toEqual({ kind: "does-not-burn", class: null });
  });

  test("fractions that make no whole are a bug", () => {
    expect(() => flammabilityOf(moles({ R290: 0.5 }))).toThrow(RangeError);
  });
});
