import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  airFromDewPoint,
  airFromHumidityRatio,
  airFromRelativeHumidity,
  airFromWetBulb,
  altitudeAt,
  type MoistAirOutcome,
  standardPressure,
  waterBoiling,
  waterSaturation,
} from "./index.ts";

const seed = 4711;
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

function finiteOrRefused(outcome: MoistAirOutcome) {
  for (const value of Object.values(outcome)) {
    if (typeof value === "number")
      expect(Number.isFinite(value) || outcome.kind !== "air").toBe(true);
  }
}

describe("atmosphere", () => {
  test("altitude and pressure invert each other", () => {
    fc.assert(
      fc.property(between(-4999, 10999), (altitude) => {
        const air = standardPressure(altitude);
        if (air.kind !== "pressure") throw new Error("refused");
        const back = altitudeAt(air.p);
        expect(back.kind === "altitude" && Math.abs(back.altitude - altitude)).toBeLessThan(1e-6);
      }),
      { seed },
    );
  });

  test("outside of the equation it says so", () => {
    expect(standardPressure(20000)).toEqual({
      kind: "out-of-range",
      quantity: "altitude",
      value: 20000,
      from: -5000,
      to: 11000,
    });
    expect(standardPressure(NaN).kind).toBe("out-of-range");
    expect(altitudeAt(0).kind).toBe("out-of-range");
  });
});

describe("water", () => {
  test("boiling inverts saturation, the triple point included", () => {
    fc.assert(
      fc.property(between(173.2, 473.1), (T) => {
        const sat = waterSaturation(T);
        if (sat.kind !== "pressure") throw new Error("refused");
        const boiling = waterBoiling(sat.p);
        expect(boiling.kind === "temperature" && Math.abs(boiling.T - T)).toBeLessThan(0.005);
        expect(boiling.kind === "temperature" && Math.abs(boiling.T - T)).toBeLessThan(
          Math.abs(T - 273.16) < 0.1 ? 0.005 : 1e-8,
        );
      }),
      { seed, numRuns: 500 },
    );
  });

  test("says what is underneath, and refuses the impossible", () => {
    expect(waterSaturation(263.15)).toMatchObject({ kind: "pressure", over: "ice" });
    expect(waterBoiling(2339)).toMatchObject({ kind: "temperature", from: "liquid" });
    expect(waterBoiling(0).kind).toBe("out-of-range");
    expect(waterBoiling(-5).kind).toBe("out-of-range");
    expect(waterSaturation(NaN).kind).toBe("out-of-range");
  });
});

describe("moist air", () => {
  test("every way in gives the same state back", () => {
    const anyAir = fc.tuple(between(255, 330), between(0.02, 1), between(6e4, 1.05e5));
    fc.assert(
      fc.property(anyAir, ([T, rh, p]) => {
        const air = airFromRelativeHumidity(T, rh, p);
        if (air.kind !== "air") throw new Error(air.quantity);
        if (air.dewPoint === undefined || air.wetBulb === undefined) throw new Error("too dry");
        expect(air.dewPoint).toBeLessThanOrEqual(air.wetBulb + 0.002);
        expect(air.wetBulb).toBeLessThanOrEqual(T + 0.002);
        const byRatio = airFromHumidityRatio(T, air.humidityRatio * (1 - 1e-12), p);
        expect(byRatio.kind === "air" && byRatio.relativeHumidity).toBeCloseTo(rh, 8);
        // The library stops its searches at 1 mK.
        const byDew = airFromDewPoint(T, Math.min(T, air.dewPoint), p);
        expect(byDew.kind === "air" && byDew.humidityRatio / air.humidityRatio).toBeCloseTo(1, 3);
        const byWet = airFromWetBulb(T, Math.min(T, air.wetBulb), p);
        // At 0 °C the equations change from water to ice and the wet bulb jumps.
        if (Math.abs(air.wetBulb - 273.15) > 0.5) {
          expect(
            byWet.kind === "air" && Math.abs(byWet.humidityRatio - air.humidityRatio),
          ).toBeLessThan(1e-5);
        }
      }),
      { seed, numRuns: 500 },
    );
  });

  test("no input makes it throw or answer with NaN", () => {
    const anyNumber = fc.oneof(fc.double(), between(-500, 500), between(0, 2e5), between(0, 1));
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, (T, second, p) => {
        for (const from of [
          airFromRelativeHumidity,
          airFromDewPoint,
          airFromWetBulb,
          airFromHumidityRatio,
        ]) {
          finiteOrRefused(from(T, second, p));
        }
      }),
      { seed, numRuns: 2000 },
    );
    fc.assert(
      fc.property(
        between(223.15, 363.15),
        fc.oneof(between(0, 1), between(223, 364)),
        between(3e4, 1.2e5),
        (T, second, p) => {
          for (const from of [
            airFromRelativeHumidity,
            airFromDewPoint,
            airFromWetBulb,
            airFromHumidityRatio,
          ]) {
            finiteOrRefused(from(T, second, p));
          }
        },
      ),
      { seed, numRuns: 2000 },
    );
  });

  test("air that would boil its water is refused", () => {
    expect(airFromRelativeHumidity(363.15, 0.5, 101325)).toMatchObject({
      kind: "out-of-range",
      quantity: "saturation pressure of water",
    });
    expect(airFromDewPoint(293.15, 300, 101325)).toMatchObject({ quantity: "dew point" });
    expect(airFromWetBulb(313.15, 273.15, 101325)).toMatchObject({ quantity: "wet bulb" });
  });
});
