import { describe, expect, test } from "vitest";
import { compute } from "./index.ts";

type Json = Record<string, unknown>;

function answered(name: string, input: unknown): { result: Json; cautions: readonly string[] } {
  const answer = compute(name, input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer as never;
}

const base = {
  vehicle: { preset: "large-orifice" },
  fluid: "R134a",
  charge: 1.36,
  ambient: 305.65,
  humidity: 0.45,
};

describe("vehicle", () => {
  test("texts and SI numbers ask the same", () => {
    const words = { ...base, charge: "1.36 kg", ambient: "32.5 °C", humidity: "45 %" };
    expect(answered("vehicle", words).result["vent"]).toBeCloseTo(
      answered("vehicle", base).result["vent"] as number,
      6,
    );
  });

  test("a running answer has readings, charge by part, cycle and notes", () => {
    const { result } = answered("vehicle", { ...base, speed: "45 mph", engineSpeed: "1600 rpm" });
    expect(result).toMatchObject({ state: "running", converged: true });
    expect(result["lowRange"]).toBeDefined();
    expect(result["highOn"]).toBeGreaterThan(result["high"] as number);
    const parts = Object.values(result["charge"] as Record<string, number>);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(1.36, 6);
    expect((result["notes"] as { code: string }[]).map(({ code }) => code)).toContain(
      "low-side-held",
    );
  });

  test("bands enclose the readings, and a parameter that is known narrows them", () => {
    const wide = answered("vehicle", { ...base, band: true }).result;
    const known = { preset: "large-orifice", fanFlow: 0.68, preheat: 7.5, condenserAirUA: 1200 };
    const narrow = answered("vehicle", { ...base, vehicle: known, band: true }).result;
    const bandOf = (result: Json) => result["band"] as Record<string, { from: number; to: number }>;
    for (const [name, { from, to }] of Object.entries(bandOf(wide))) {
      expect(from, name).toBeLessThanOrEqual(wide[name] as number);
      expect(to, name).toBeGreaterThanOrEqual(wide[name] as number);
    }
    const width = (result: Json): number => {
      const high = bandOf(result)["high"];
      return high ? high.to - high.from : 0;
    };
    expect(width(narrow)).toBeLessThan(0.8 * width(wide));
  });

  test("a label charge sizes the preset; a bulb for another refrigerant moves the valve", () => {
    const sized = { preset: "midsize-expansion", labelCharge: "800 g" };
    const whole = answered("vehicle", { ...base, vehicle: sized, charge: "800 g" }).result;
    expect(whole["regime"]).toBe("balanced");
    const preset = "midsize-expansion";
    const asked = { ...base, fluid: "R1234yf", charge: 0.55 };
    const old = answered("vehicle", { ...asked, vehicle: { preset } }).result;
    const made = { preset, bulbFluid: "r-1234yf" };
    const own = answered("vehicle", { ...asked, vehicle: made }).result;
    expect(own["superheat"]).toBeLessThan((old["superheat"] as number) - 1);
  });

  test("a fault stands beside the healthy system", () => {
    const { result } = answered("vehicle", { ...base, faults: { blockedCondenser: "60 %" } });
    const healthy = result["healthy"] as Record<string, number>;
    expect(result["high"]).toBeGreaterThan((healthy["high"] ?? 0) + 4e5);
  });

  test("one that stops says why and gives no readings", () => {
    const { result } = answered("vehicle", { ...base, charge: "20 g" });
    expect(result).toMatchObject({ state: "stopped", reason: "resting-pressure-too-low" });
    expect(result["low"]).toBeUndefined();
    expect(answered("vehicle", { ...base, fluid: "R728" }).result).toMatchObject({
      state: "stopped",
      reason: "above-property-table",
    });
    // Carbon dioxide has no two phases over the pressures of the other refrigerants.
    expect(compute("vehicle", { ...base, fluid: "R744" })).toMatchObject({
      kind: "no-answer",
      reason: "no-solution",
    });
  });

  test("a blend runs, with the caution that it burns", () => {
    const blend = [
      { fluid: "R290", mass: 60 },
      { fluid: "R600a", mass: 40 },
    ];
    const { vehicle, ambient, humidity } = base;
    const asked = { vehicle, ambient, humidity, blend, charge: 0.54 };
    const { result, cautions } = answered("vehicle", asked);
    expect(result["state"]).toBe("running");
    expect(cautions.join(" ")).toContain("Burns");
  });

  test("altitude moves absolute pressures, not the gauge's", () => {
    const road = { ...base, ambient: 298.15, speed: 20, engineSpeed: 27, pulldown: 0.9 };
    const high = answered("vehicle", { ...road, altitude: 1600 }).result;
    const sea = answered("vehicle", road).result;
    expect((sea["low"] as number) - (high["low"] as number)).toBeGreaterThan(1.5e4);
  });

  test.each([
    [{ ...base, vehicle: { preset: "large-orifice", wheels: 4 } }, "vehicle.wheels"],
    [{ ...base, vehicle: { preset: "large-orifice", displacement: 2 } }, "vehicle.displacement"],
    [{ ...base, vehicle: { preset: "large-orifice", valveSpring: 4e4 } }, "vehicle.valveSpring"],
    [{ ...base, vehicle: { preset: "lorry" } }, "vehicle"],
    [{ ...base, vehicle: { preset: "large-orifice", labelCharge: 9 } }, "vehicle.labelCharge"],
    [{ ...base, vehicle: { preset: "compact-expansion", bulbFluid: "R32" } }, "vehicle.bulbFluid"],
    [{ ...base, vehicle: { preset: "large-orifice", bulbFluid: "R134a" } }, "vehicle.bulbFluid"],
    [{ ...base, returnAir: { T: 5000 } }, "returnAir.T"],
    [{ ...base, returnAir: { T: 298 }, pulldown: 0.5 }, "pulldown"],
    [{ ...base, faults: { restriction: 2 } }, "faults.restriction"],
    [{ ...base, blend: "R441A" }, "fluid"],
  ])("what cannot be used is named: %#", (input, field) => {
    const answer = compute("vehicle", input);
    expect(answer.kind === "invalid" && answer.issues[0]?.field).toBe(field);
  });
});

describe("sweep", () => {
  test("along ambient the head rises", () => {
    const input = { ...base, over: "ambient", from: "20 °C", to: 313.15, steps: 9 };
    const points = answered("sweep", input).result["points"] as { at: number; high: number }[];
    expect(points).toHaveLength(9);
    expect(points[0]?.at).toBeCloseTo(293.15, 9);
    const heads = points.map(({ high }) => high);
    expect([...heads].sort((a, b) => a - b)).toEqual(heads);
  });

  test("along the charge it goes from stopped to running", () => {
    const input = { ...base, over: "charge", from: 0.005, to: "1.4 kg", steps: 6 };
    const points = answered("sweep", input).result["points"] as { state: string }[];
    expect(points.map(({ state }) => state)).toEqual([
      "stopped",
      ...new Array<string>(5).fill("running"),
    ]);
  });

  test("an end that does not suit the quantity is named", () => {
    const answer = compute("sweep", { ...base, over: "speed", from: "20 °C", to: 10, steps: 3 });
    expect(answer.kind === "invalid" && answer.issues[0]?.field).toBe("from");
  });
});
