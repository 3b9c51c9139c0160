import { expect, test } from "vitest";
import {
  airFromHumidityRatio,
  airFromRelativeHumidity,
  airFromWetBulb,
  type MoistAirOutcome,
  standardPressure,
  waterSaturation,
} from "../../src/air/index.ts";

// Figures of the ASHRAE Handbook Fundamentals (2017), chapter 1, as transcribed in the test suite that the
// authors of psychrolib publish with it (tests/test_psychrolib_si.py); tolerances are theirs.

const K = 273.15;
function air(outcome: MoistAirOutcome) {
  if (outcome.kind !== "air") throw new Error(`refused: ${outcome.quantity}`);
  return outcome;
}

// Table 3: saturation pressure of water in Pa.
test.each([
  [-60, 1.08, 0.01],
  [-20, 103.24, 3e-4],
  [-5, 401.74, 3e-4],
  [5, 872.6, 3e-4],
  [25, 3169.7, 3e-4],
  [50, 12351.3, 3e-4],
  [100, 101418.0, 3e-4],
  [150, 476101.4, 3e-4],
])("saturation pressure at %d °C", (t, p, tolerance) => {
  const sat = waterSaturation(t + K);
  expect(sat.kind === "pressure" && Math.abs(sat.p / p - 1)).toBeLessThan(tolerance);
});

// Table 2: humidity ratio and enthalpy of saturated air at 101.325 kPa. The ideal-gas equations are known to
// miss the real-gas table by up to 1 % in W and, where h is near zero, 3 % in h.
test.each([
  [-20, 0.0006373, -18542, 0.01, 0.01],
  [-5, 0.0024863, 1164, 0.005, 0.03],
  [5, 0.005425, 18639, 0.005, 0.01],
  [25, 0.020173, 76504, 0.005, 0.01],
  [50, 0.086863, 275353, 0.01, 0.01],
])("saturated air at %d °C", (t, W, h, toleranceW, toleranceH) => {
  const state = air(airFromRelativeHumidity(t + K, 1, 101325));
  expect(Math.abs(state.humidityRatio / W - 1)).toBeLessThan(toleranceW);
  expect(Math.abs(state.h / h - 1)).toBeLessThan(toleranceH);
});

// Worked by the library's authors: 30 °C, W = 0.02, 95 461 Pa.
test("enthalpy, volume and density of moist air", () => {
  const state = air(airFromHumidityRatio(30 + K, 0.02, 95461));
  expect(Math.abs(state.h / 81316 - 1)).toBeLessThan(3e-4);
  expect(Math.abs(state.volume / 0.940855374352943 - 1)).toBeLessThan(3e-4);
  expect(Math.abs(state.rho / 1.08411986348219 - 1)).toBeLessThan(3e-4);
});

// Chapter 1, example 1: 40 °C dry bulb, 20 °C wet bulb, 101.325 kPa.
test("example 1 of the chapter", () => {
  const state = air(airFromWetBulb(40 + K, 20 + K, 101325));
  expect(Math.abs(state.humidityRatio - 0.0065)).toBeLessThan(1e-4);
  expect(Math.abs((state.dewPoint ?? 0) - K - 7)).toBeLessThan(0.5);
  expect(Math.abs(state.relativeHumidity - 0.14)).toBeLessThan(0.01);
  expect(Math.abs(state.h - 56700)).toBeLessThan(100);
  expect(Math.abs(state.volume / 0.896 - 1)).toBeLessThan(0.01);
  const back = air(airFromRelativeHumidity(40 + K, state.relativeHumidity, 101325));
  expect(Math.abs((back.wetBulb ?? 0) - K - 20)).toBeLessThan(0.1);
});

// Two states of the library's suite, above and below freezing, at the standard pressure of 500 m.
test.each([
  [30, 25, 0.0192281274241096],
  [-1, -5, 0.00120399819933844],
])("humidity ratio at %d °C and a wet bulb of %d °C", (t, wetBulb, W) => {
  const state = air(airFromWetBulb(t + K, wetBulb + K, 95461));
  expect(Math.abs(state.humidityRatio / W - 1)).toBeLessThan(3e-4);
  expect(Math.abs((state.wetBulb ?? 0) - K - wetBulb)).toBeLessThan(0.001);
});

// Table 1: standard atmosphere, Pa.
test.each([
  [-500, 107478],
  [0, 101325],
  [500, 95461],
  [1000, 89875],
  [4000, 61640],
  [10000, 26436],
])("standard atmosphere at %d m", (altitude, p) => {
  const outcome = standardPressure(altitude);
  expect(outcome.kind === "pressure" && Math.abs(outcome.p - p)).toBeLessThanOrEqual(1);
});
