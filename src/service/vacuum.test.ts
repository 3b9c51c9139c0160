import { describe, expect, test } from "vitest";
import { localAir } from "./local-air.ts";
import { vacuumCheck } from "./vacuum.ts";

const IN_HG = 3386.388640341;
const MICRON = 0.133322387415;
const K = 273.15;

function airAt(altitude?: number) {
  const air = localAir({ altitude });
  if (air.kind !== "local-air") throw new Error("refused");
  return air;
}

function check(reading: {
  p: number;
  uReading: number;
  reference: "air" | "absolute";
  altitude?: number;
}) {
  const outcome = vacuumCheck({ ...reading, T: 20 + K, air: airAt(reading.altitude) });
  if (outcome.kind !== "checked") throw new Error("refused");
  return outcome;
}

describe("vacuum", () => {
  test("a micron gauge at 380 micron: water boils, deep enough", () => {
    const outcome = check({ p: 380 * MICRON, uReading: 33 * MICRON, reference: "absolute" });
    expect(outcome.verdict).toBe("water-boils");
    expect(outcome.depth).toEqual({ deep: "reached", acceptable: "reached" });
    expect((outcome.boilingTemperature ?? 0) - K).toBeLessThan(-24.5);
    expect(outcome.boilingTemperatureAtWorst).toBeGreaterThan(
      outcome.boilingTemperature ?? Infinity,
    );
  });

  // Arithmetic: a Bourdon gauge cannot tell 500 from 2000 micron, 0.06 inHg apart.
  test("a Bourdon gauge can tell neither the depth nor, at its best, whether water boils", () => {
    const p = 101325 - 29.9 * IN_HG;
    const outcome = check({ p, uReading: (0.5 * IN_HG) / Math.sqrt(3), reference: "air" });
    expect(outcome.verdict).toBe("gauge-cannot-tell");
    expect(outcome.depth).toEqual({ deep: "gauge-cannot-tell", acceptable: "gauge-cannot-tell" });
  });

  test("25 inHg at sea level is not deep enough, whatever the gauge", () => {
    const outcome = check({
      p: 101325 - 25 * IN_HG,
      uReading: IN_HG / Math.sqrt(3),
      reference: "air",
    });
    expect(outcome.verdict).toBe("not-deep-enough");
    expect(outcome.depth.acceptable).toBe("not-reached");
  });

  // Standard atmosphere (ASHRAE Fundamentals 2017, chapter 1, equation 3): at 1500 m the best reading is 24.97 inHg.
  test("the deepest reading falls with altitude, and a deeper one is a fault", () => {
    const air = airAt(1500);
    expect(air.p / IN_HG).toBeCloseTo(24.97, 2);
    const p = air.p - 29 * IN_HG;
    const outcome = check({ p, uReading: 0.3 * IN_HG, reference: "air", altitude: 1500 });
    expect(outcome.verdict).toBe("deeper-than-possible");
    expect(outcome.deepestReading).toBe(air.p);
    expect(outcome.interval).toEqual({ from: 0, to: 0 });
    expect(outcome.boilingTemperature).toBeUndefined();
  });

  test("an impossible shop temperature is refused", () => {
    const outcome = vacuumCheck({
      p: 100,
      uReading: 1,
      reference: "absolute",
      T: 1000,
      air: airAt(),
    });
    expect(outcome).toMatchObject({ kind: "out-of-range", quantity: "temperature" });
  });
});

describe("local air", () => {
  test("barometer before altitude before assumption", () => {
    expect(localAir({ barometer: 95000, altitude: 500 })).toMatchObject({
      p: 95000,
      basis: "barometer",
      doubt: undefined,
    });
    expect(localAir({ altitude: 500 })).toMatchObject({ basis: "altitude", u: 1000 });
    expect(localAir()).toMatchObject({ p: 101325, basis: "assumed" });
  });

  test("a forecast's figure at an altitude is doubted, nonsense is refused", () => {
    expect(localAir({ barometer: 101500, altitude: 1500 })).toMatchObject({
      doubt: "sea-level-figure",
    });
    expect(localAir({ barometer: 2 })).toMatchObject({
      kind: "out-of-range",
      quantity: "barometer",
    });
    expect(localAir({ altitude: 1e6 })).toMatchObject({
      kind: "out-of-range",
      quantity: "altitude",
    });
    expect(localAir({ barometer: 95000, altitude: 1e6 })).toMatchObject({ quantity: "altitude" });
  });
});
