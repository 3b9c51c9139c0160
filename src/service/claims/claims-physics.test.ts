import { describe, expect, test } from "vitest";
import { type FluidId, namedBlends } from "../../fluids/index.ts";
import { materialOf } from "../bulk/material.ts";
import { toMoles } from "../substances/composition.ts";
import { equivalenceOf, heatOfEvaporation, largestHeat } from "./equivalence.ts";
import { referenceCycle } from "./reference-cycle.ts";

const pure = (fluid: FluidId) => materialOf([{ fluid, fraction: 1 }]);
const named = (name: string) => {
  const blend = namedBlends.find((one) => one.name === name);
  if (!blend) throw new Error(name);
  return materialOf(toMoles(blend.shares.map(({ fluid, mass }) => ({ fluid, fraction: mass }))));
};
const r134a = pure("R134a");

// CoolProp 8.0.0: ratios of saturated liquid densities at 25 °C to that of R134a, three digits.
test.each([
  ["R1234yf", pure("R1234yf"), 0.905],
  ["R152a", pure("R152a"), 0.745],
  ["R290", pure("R290"), 0.408],
  ["HC 50/40/10", named("HC 50/40/10"), 0.44],
  ["HC 60/40", named("HC 60/40"), 0.427],
])("a volume of liquid %s weighs as much of that of R134a as tables say", (_, material, ratio) => {
  const { liquidVolume } = equivalenceOf(material, r134a) ?? { liquidVolume: NaN };
  expect(Math.abs(1 / liquidVolume - ratio)).toBeLessThan(0.0006);
});

test("6 oz of HC 50/40/10 fill the volume of 13.7 oz of R134a, and take up the heat of less than 12.4 oz", () => {
  const worth = equivalenceOf(named("HC 50/40/10"), r134a);
  expect(Math.abs(6 * (worth?.liquidVolume ?? NaN) - 13.7)).toBeLessThan(0.1);
  expect(6 * (worth?.heat ?? NaN)).toBeLessThan(0.9 * 13.7);
});

// CoolProp 8.0.0: heat of evaporation at 5 °C by volume of liquid, MJ/m3.
test.each([
  ["R134a", 249],
  ["R1234yf", 186],
  ["R152a", 286],
  ["R290", 192],
  ["R600a", 201],
] as const)("%s takes up %d MJ/m3 of liquid at 5 °C", (fluid, expected) => {
  const material = pure(fluid);
  const density = { R134a: 1278.1, R1234yf: 1160.4, R152a: 948.0, R290: 521.7, R600a: 574.9 };
  const heat = (heatOfEvaporation(material) ?? NaN) * density[fluid];
  expect(Math.abs(heat / 1e6 - expected)).toBeLessThan(0.015 * expected);
});

test("no fluid known here takes up 500 kJ/kg", () => {
  const { fluid, heat } = largestHeat();
  expect(fluid).not.toBe("R718");
  expect(heat).toBeGreaterThan(3e5);
  expect(heat).toBeLessThan(5e5);
});

describe("the loop 5 °C, 50 °C, 10 K, 5 K, 0.65", () => {
  const reference = referenceCycle(r134a);

  test("R134a: discharge 77.9 °C, COP 3.27, 2389 kJ/m3", () => {
    // CoolProp 8.0.0.
    expect(Math.abs((reference?.discharge ?? NaN) - 273.15 - 77.9)).toBeLessThan(1);
    expect(Math.abs((reference?.cop ?? NaN) - 3.27)).toBeLessThan(0.02);
    expect(Math.abs((reference?.volumetric ?? NaN) / 2.389e6 - 1)).toBeLessThan(0.01);
  });

  // CoolProp 8.0.0: cooling by volume and COP over those of R134a.
  test.each([
    ["R1234yf", pure("R1234yf"), 0.938, 0.962],
    ["R152a", pure("R152a"), 0.95, 1.031],
    ["R290", pure("R290"), 1.315, 0.981],
    ["R600a", pure("R600a"), 0.54, 1.033],
    ["HC 50/40/10", named("HC 50/40/10"), 0.855, 1.081],
    ["HC 60/40", named("HC 60/40"), 0.999, 1.037],
  ])("%s over R134a", (_, material, volumetric, cop) => {
    const loop = referenceCycle(material);
    const over = (loop?.volumetric ?? NaN) / (reference?.volumetric ?? NaN);
    expect(Math.abs(over - volumetric)).toBeLessThan(0.01);
    expect(Math.abs((loop?.cop ?? NaN) / (reference?.cop ?? NaN) - cop)).toBeLessThan(0.01);
  });

  test("carbon dioxide has none: 50 °C is above its critical point", () => {
    expect(referenceCycle(pure("R744"))).toBeUndefined();
  });
});
