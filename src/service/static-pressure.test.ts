import { describe, expect, test } from "vitest";
import { fluid, saturationAtT } from "../fluids/index.ts";
import { localAir } from "./local-air.ts";
import { staticMeanings } from "./static-data.ts";
import { lookAlikes, staticCheck, type StaticReading } from "./static-pressure.ts";

const K = 273.15;
const PSI = 6894.757293168361;
const air = seaLevel();
const R134a = fluid("R134a");

function seaLevel() {
  const outcome = localAir({ barometer: 101325 });
  if (outcome.kind !== "local-air") throw new Error("refused");
  return outcome;
}

function check(over: Partial<StaticReading> & { gaugePsi: number; u?: number }) {
  const outcome = staticCheck({
    fluid: R134a,
    metal: { T: 25 + K, u: 0.6 },
    pressure: { p: air.p + over.gaugePsi * PSI, u: over.u ?? 1.4 * PSI, reference: "air" },
    air,
    ...over,
  });
  if (outcome.kind !== "checked") throw new Error("no saturation");
  return outcome;
}

describe("static pressure", () => {
  test("within, higher and lower", () => {
    expect(check({ gaugePsi: 82 }).verdict).toBe("within");
    expect(check({ gaugePsi: 95 }).verdict).toBe("higher");
    expect(check({ gaugePsi: 60 }).verdict).toBe("lower");
  });

  test("a wide band says undecided inside, and still higher far outside", () => {
    // A 500 psi gauge of grade B near its lower end: 15 psi of limit, 8.7 psi of standard uncertainty.
    expect(check({ gaugePsi: 82, u: 8.7 * PSI }).verdict).toBe("undecided");
    expect(check({ gaugePsi: 130, u: 8.7 * PSI }).verdict).toBe("higher");
  });

  test("the band is twice the root of the sum of squares of what it is made of", () => {
    const { contributions, u, band, expected, difference } = check({ gaugePsi: 82 });
    expect(contributions.map(({ name }) => name)).toEqual([
      "gauge",
      "thermometer",
      "equation of state",
      "local air",
    ]);
    expect(u).toBeCloseTo(Math.hypot(...contributions.map((part) => part.u)), 6);
    expect(band.to - band.from).toBeCloseTo(4 * u, 6);
    expect(difference).toBeCloseTo(air.p + 82 * PSI - expected, 6);
    // CoolProp 8.0.0: the saturation pressure of R134a rises by 0.2 bar/K near room temperature.
    expect((contributions[1]?.u ?? 0) / 0.6).toBeCloseTo(19800, -3);
  });

  test("an absolute instrument leaves the air out", () => {
    const pressure = { p: 6.65e5, u: 1000, reference: "absolute" } as const;
    expect(check({ gaugePsi: 0, pressure }).contributions).toHaveLength(3);
  });

  test("no verdict where the fluid does not boil", () => {
    const reading = {
      metal: { T: 35 + K, u: 1 },
      pressure: { p: 7e6, u: 1e4, reference: "air" },
      air,
    } as const;
    expect(staticCheck({ fluid: fluid("R744"), ...reading })).toMatchObject({
      kind: "no-saturation",
      reason: "above-critical",
    });
    expect(
      staticCheck({ fluid: fluid("R718"), ...reading, metal: { T: 250, u: 1 } }),
    ).toMatchObject({
      reason: "too-cold",
    });
  });

  test("at an end of the range an error of the thermometer still counts", () => {
    const T = fluid("R134a").info.Tmin;
    const sat = saturationAtT(R134a, T);
    if (sat.kind !== "saturated") throw new Error("no saturation");
    const pressure = { p: sat.p, u: 1, reference: "absolute" } as const;
    const outcome = staticCheck({ fluid: R134a, metal: { T, u: 1 }, pressure, air });
    expect(outcome.kind === "checked" && (outcome.contributions[1]?.u ?? 0)).toBeGreaterThan(0);
  });

  // CoolProp 8.0.0: R134a and R1234yf cross near 41 °C.
  test("look-alikes are named", () => {
    const { u } = check({ gaugePsi: 82 });
    expect(lookAlikes(25 + K, air.p + 82 * PSI, u)).toContain("R1234yf");
    expect(lookAlikes(41 + K, 1.05e6, 1e4)).toEqual(expect.arrayContaining(["R134a", "R1234yf"]));
    expect(lookAlikes(25 + K, 6.65e5, 1e3)).not.toContain("R290");
  });

  test("every verdict has meanings with a source", () => {
    for (const verdict of ["within", "higher", "lower", "undecided"] as const) {
      for (const { says, source } of staticMeanings(verdict)) {
        expect(says.length).toBeGreaterThan(20);
        expect(source.length).toBeGreaterThan(10);
      }
    }
    expect(staticMeanings("higher").map(({ cause }) => cause)).toContain("air");
  });

  test("numbers that are not finite are the caller's bug", () => {
    expect(() => check({ gaugePsi: NaN })).toThrow(RangeError);
  });
});
