import { describe, expect, test } from "vitest";
import { flammabilityOf, toMoles } from "../index.ts";
import { ratedBlends } from "../substances/named-blends.ts";
import { breathingLimits, fractionOf, limitInAir, warningLimit } from "./air-limits.ts";
import { leakInto, safeMass } from "./leak.ts";
import { releaseAtOnce, steadyRelease } from "./release.ts";
import { perHour } from "./ventilation.ts";

// Lowest limit among vehicle refrigerants: ASHRAE 34 table 4-1 (R290, R600a).
const LFL = 0.038;
const sealed = (volume: number) => ({ volume, airChanges: 0 });
const percentOf = (mass: number, volume: number) =>
  (100 * leakInto(sealed(volume), releaseAtOnce(mass), [LFL]).peak) / LFL;

// Arithmetic m/V against 0.038 kg/m3, whole per cents.
describe.each([
  [0.15, [158, 132, 113, 88]],
  [0.25, [263, 219, 188, 146]],
  [0.3, [316, 263, 226, 175]],
  [0.4, [421, 351, 301, 234]],
])("%s kg, sealed and stirred", (mass, expected) => {
  test.each([2.5, 3, 3.5, 4.5].map((volume, i) => [volume, expected[i] ?? NaN]))(
    "in %s m3: %s percent",
    (volume, percent) => {
      // Half a unit of the last digit, and the rounding of exact halves either way.
      expect(Math.abs(percentOf(mass, volume) - percent)).toBeLessThanOrEqual(0.5 + 1e-9);
    },
  );
});

test("28 g is what stays below a quarter of the limit in 3 m3", () => {
  const safe = safeMass(sealed(3), releaseAtOnce, LFL / 4) ?? NaN;
  expect(safe).toBeCloseTo((LFL / 4) * 3, 12);
  expect(Math.floor(safe * 1e3)).toBe(28);
});

// t = ln(C0/C1)/a: 2 LFL to LFL/4 takes 25.0 min at 5 changes an hour, 2.1 min at 60.
test.each([
  [5, 24.953],
  [60, 2.079],
])("at %d changes an hour twice the limit falls to a quarter in %s min", (changes, minutes) => {
  const space = { volume: 3, airChanges: perHour(changes) };
  const { above } = leakInto(space, releaseAtOnce(2 * LFL * 3), [LFL / 4]);
  expect((above[0] ?? NaN) / 60).toBeCloseTo(minutes, 3);
});

test("a steady leak that fresh air holds below a quarter is safe at any mass", () => {
  const space = { volume: 3, airChanges: perHour(30) };
  const leak = (rate: number) => (mass: number) => steadyRelease(mass, rate);
  const limit = (LFL / 4) * space.airChanges * space.volume;
  expect(safeMass(space, leak(0.9 * limit), LFL / 4)).toBeUndefined();
  const safe = safeMass(space, leak(3 * limit), LFL / 4) ?? NaN;
  expect(leakInto(space, leak(3 * limit)(safe), [LFL / 4]).peak).toBeCloseTo(LFL / 4, 9);
});

test("sealed air never clears", () => {
  expect(leakInto(sealed(3), releaseAtOnce(0.3), [LFL]).above).toEqual([null]);
});

test("nothing released is nothing in the air", () => {
  const { peak, above } = leakInto(sealed(3), releaseAtOnce(0), [LFL]);
  expect([peak, above]).toEqual([0, [0]]);
});

describe("limits in this air", () => {
  test("2.1 % of propane is 0.0379 kg/m3 at 25 °C and 101.325 kPa", () => {
    const air = { T: 298.15, p: 101325 };
    expect(fractionOf(0.0379, 0.044096, air)).toBeCloseTo(0.021, 4);
    expect(limitInAir(LFL, air)).toBeCloseTo(LFL, 12);
  });

  test("thin and hot air reach it with less mass", () => {
    expect(limitInAir(LFL, { T: 298.15, p: 79495 }) / LFL).toBeCloseTo(0.7846, 4);
    // Burgess and Wheeler: 8 % of the value each 100 K, beside the gas's expansion.
    const hot = limitInAir(LFL, { T: 398.15, p: 101325 }) / LFL;
    expect(hot).toBeCloseTo((298.15 / 398.15) * 0.92, 9);
  });

  test("whatever leaves a blend of hydrocarbons first, its parts' lowest limit bounds it", () => {
    const blend = ratedBlends.find((one) => one.blend === "HC 60/40");
    const moles = toMoles(blend?.parts ?? []);
    const rated = flammabilityOf(moles, blend);
    // R290: 2.1 % is 0.03785 kg/m3, and 0.038 by mass.
    expect(warningLimit(rated, moles, "vapour")).toBeCloseTo(0.03785, 5);
    expect(warningLimit(rated, moles, "as-charged")).toBeCloseTo(0.0379, 4);
    expect(warningLimit(flammabilityOf([{ fluid: "R134a", fraction: 1 }]), moles, "vapour")).toBe(
      undefined,
    );
  });

  // ASHRAE 34 table 4-1, ppm.
  test.each([
    ["R134a", 50_000, 50_000],
    ["R290", 50_000, 5_300],
    ["R1234yf", 100_000, 16_000],
    ["R600a", 25_000, 4_000],
    ["R744", 30_000, 30_000],
  ] as const)("%s: ATEL %d ppm, RCL %d ppm", (fluid, atel, rcl) => {
    const limits = breathingLimits([{ fluid, fraction: 1 }], undefined);
    expect(limits.atel).toBeCloseTo(atel * 1e-6, 9);
    expect(limits.rcl).toBeCloseTo(rcl * 1e-6, 9);
  });

  test("a shaky figure is none", () => {
    expect(breathingLimits([{ fluid: "R13I1", fraction: 1 }], undefined)).toMatchObject({
      atel: undefined,
      rcl: undefined,
    });
  });
});
