import { expect, test } from "vitest";
import { standardPressure, waterBoiling, waterSaturation } from "../../src/air/index.ts";

const K = 273.15;
const MICRON = 0.133322387415;
const IN_HG = 3386.388640341;

/** The trade's table of micron against boiling temperature (°C), computed from IAPWS-95 and the IAPWS ice
 * equation with CoolProp 8.0.0; printed to 0.1 °C. */
test.each([
  [50000, 38.1],
  [25000, 25.8],
  [10000, 11.2],
  [5000, 1.2],
  [2000, -9.7],
  [1500, -12.9],
  [1000, -17.3],
  [500, -24.5],
  [300, -29.5],
  [250, -31.3],
  [100, -39.7],
])("water or ice boils at %d micron", (micron, t) => {
  const boiling = waterBoiling(micron * MICRON);
  expect(boiling.kind === "temperature" && Math.abs(boiling.T - K - t)).toBeLessThan(0.0999);
});

// IAPWS-95 saturation pressures, Pa (CoolProp 8.0.0): the ASHRAE equations claim 300 ppm.
test.each([
  [0.02, 612.1],
  [5, 872.575113905957],
  [10, 1228.1989307541448],
  [20, 2339.3181834056754],
  [30, 4246.970836903843],
  [40, 7384.938073826001],
  [60, 19946.434307886884],
  [100, 101417.9966600156],
  [200, 1554927.900466838],
])("saturation pressure at %d °C against IAPWS-95", (t, p) => {
  const sat = waterSaturation(t + K);
  expect(sat.kind === "pressure" && Math.abs(sat.p / p - 1)).toBeLessThan(3e-4);
});

// IAPWS R14-08 (2011), equation 6, pressure of sublimation of ice (coefficients from memory of the release).
test.each([-90, -60, -47, -40, -20, -5])("pressure over ice at %d °C against IAPWS", (t) => {
  const theta = (t + K) / 273.16;
  const sum =
    -21.2144006 * theta ** (1 / 300) +
    27.3203819 * theta ** 1.20666667 -
    6.1059813 * theta ** 1.70333333;
  const p = 611.657 * Math.exp(sum / theta);
  const sat = waterSaturation(t + K);
  expect(sat.kind === "pressure" && Math.abs(sat.p / p - 1)).toBeLessThan(3.5e-4);
});

// CoolProp 8.0.0 (IAPWS-95): 20 °C is 2339 Pa = 17 546 micron = 29.23 inHg of vacuum at sea level.
test("water at 20 °C", () => {
  const sat = waterSaturation(20 + K);
  if (sat.kind !== "pressure") throw new Error("refused");
  expect(Math.abs(sat.p / 2339 - 1)).toBeLessThan(0.005);
  expect(Math.abs(sat.p / MICRON / 17546 - 1)).toBeLessThan(0.005);
  expect((101325 - sat.p) / IN_HG).toBeCloseTo(29.23, 2);
});

// Arithmetic on the standard atmosphere: inHg of vacuum that 500 micron show at an altitude.
test.each([
  [0, 29.9],
  [300, 28.85],
  [500, 28.17],
  [1000, 26.52],
  [1500, 24.95],
  [2000, 23.46],
  [3000, 20.68],
])("500 micron at %d m", (altitude, inHg) => {
  const air = standardPressure(altitude);
  if (air.kind !== "pressure") throw new Error("refused");
  expect(Math.abs((air.p - 500 * MICRON) / IN_HG - inHg)).toBeLessThanOrEqual(0.0055);
});
