import { describe, expect, test } from "vitest";
import {
  airLeft,
  depthNeeded,
  laminarScale,
  molecularConductance,
  pumpDown,
  throughputOf,
  viscousConductance,
  yearlyMass,
} from "../../src/service/index.ts";
import { standardPressure, waterSaturation } from "../../src/air/index.ts";

const MICRON = 0.133322387415;
const INHG = 3386.389;
const T20 = 293.15;
const R134A = 0.102032;

/** A digit of the printed figure. */
const near = (value: number, printed: number, relative: number): void => {
  expect(Math.abs(value / printed - 1)).toBeLessThanOrEqual(relative);
};

// Rows computed from Poiseuille's and Knudsen's laws with μ 1.82e-5 Pa s, hose of 1.8 m, L/s.
describe("conductance of hoses of 1.8 m", () => {
  test.each([
    [4.8, 0.3977, 0.0398, 0.0074],
    [6.35, 1.2181, 0.1218, 0.0172],
    [9.5, 6.1023, 0.6102, 0.0577],
  ])("bore %f mm", (bore, at1000, at100, molecular) => {
    const hose = { bore: bore / 1000, length: 1.8 };
    expect(1000 * viscousConductance(hose, 1000, T20)).toBeCloseTo(at1000, 3);
    expect(1000 * viscousConductance(hose, 100, T20)).toBeCloseTo(at100, 3);
    expect(1000 * molecularConductance(hose, T20)).toBeCloseTo(molecular, 4);
  });
});

// t = (V/S)·ln(p0/p) for a perfect pump.
test.each([
  [0.5e-3, 58.6],
  [1e-3, 29.3],
])("4 L at %f m3/s from the air to 500 micron", (speed, seconds) => {
  const pump = { speed, ultimate: 0 };
  const found = pumpDown({ volume: 4e-3, pump, hoses: [], from: 101_325, to: 66.7, T: T20, water: 0 });
  if (found.kind !== "reached") throw new Error(found.kind);
  expect(found.time).toBeCloseTo(seconds, 1);
});

test("the ultimate enters as in (V/S)·ln((p0 − pu)/(p − pu))", () => {
  const pump = { speed: 5e-4, ultimate: 5 };
  const found = pumpDown({ volume: 4e-3, pump, hoses: [], from: 1e4, to: 50, T: T20, water: 0 });
  if (found.kind !== "reached") throw new Error(found.kind);
  near(found.time, 8 * Math.log(9995 / 45), 1e-3);
});

// Saturated vapour at 20 °C holds 17.3 g/m3: one gram needs 58 L pumped.
test("one gram of water takes 58 L of vapour", () => {
  const pump = { speed: 1e-3, ultimate: 0 };
  const found = pumpDown({ volume: 4e-3, pump, hoses: [], from: 1e5, to: 66.7, T: T20, water: 1e-3 });
  if (found.kind !== "reached") throw new Error(found.kind);
  near(found.spent.water, 58, 0.01);
});

test("three pulls leave 2.28e-9 at 1000 micron and 1.82e-8 at 2000", () => {
  near(airLeft(1000 * MICRON, 101_325, 3), 2.28e-9, 0.003);
  near(airLeft(2000 * MICRON, 101_325, 3), 1.82e-8, 0.003);
});

// Standard atmosphere; best reading of a gauge at 500 micron, inHg.
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
  if (air.kind !== "pressure") throw new Error(air.kind);
  const depth = depthNeeded(T20, air.p);
  if (depth.kind !== "depth") throw new Error(depth.kind);
  expect(depth.reading.deep / INHG).toBeCloseTo(inHg, 2);
});

test("water boils at 2339 Pa, 29.23 inHg, at 20 °C; 102 mmHg is 87.7 kPa", () => {
  const water = waterSaturation(T20);
  if (water.kind !== "pressure") throw new Error(water.kind);
  near(water.p, 2339, 0.005);
  near((101_325 - water.p) / INHG, 29.23, 0.0005);
  expect((101_325 - 102 * 133.322) / 1000).toBeCloseTo(87.7, 1);
});

// 1000 micron in 10 min in 3 L; 250 g of air a year; 1 g of R134a a year is 7.57e-7 Pa m3/s at 20 °C.
test("throughputs and yearly masses", () => {
  const Q = (3e-3 * 1000 * MICRON) / 600;
  near(Q, 6.67e-4, 0.002);
  near(yearlyMass(Q, 0.0289652, T20), 0.25, 0.01);
  for (const [grams, Pam3s] of [
    [1, 7.57e-7],
    [4, 3.03e-6],
    [14, 1.06e-5],
    [40, 3.03e-5],
  ] as const) {
    near(throughputOf(grams / 1000, R134A, T20), Pam3s, 0.005);
  }
  near(throughputOf(0.014, 0.0440956, T20), 2.45e-5, 0.005);
});

// Laminar, from 1 bar of air inward to 6.65 bar of R134a outward: 65.5 times; 40 g a year rises 0.7 micron in 10 min in 3 L.
test("from vacuum to service", () => {
  near(laminarScale(6.65e5, 101_325), 65.5, 0.01);
  const air = throughputOf(0.04, R134A, T20) / laminarScale(6.65e5, 101_325);
  expect((air * 600) / 3e-3 / MICRON).toBeCloseTo(0.7, 1);
});
