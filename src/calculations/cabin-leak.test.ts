import { describe, expect, test } from "vitest";
import { compute } from "./index.ts";

interface Zone {
  readonly peak: number;
  readonly overLFL: number | null;
  readonly minutesAboveLFL: number | null;
  readonly minutesAboveQuarterLFL: number | null;
  readonly clears: boolean | null;
  readonly safeMass: number | null;
}
type Leak = Zone & {
  readonly stirred: Zone;
  readonly layer: Zone;
  readonly series: readonly { readonly t: number; readonly concentration: number }[];
  readonly lfl: number | null;
  readonly burns: string;
  readonly poisonInFlame: boolean;
  readonly breathing: readonly { readonly what: string; readonly ratio: number }[];
  readonly co2Equivalent: readonly { readonly edition: string; readonly mass: number | null }[];
};
function leak(input: unknown) {
  const answer = compute("cabin-leak", input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return { ...answer, result: answer.result as Leak };
}
function issueOf(input: unknown) {
  const answer = compute("cabin-leak", input);
  if (answer.kind !== "invalid") throw new Error(JSON.stringify(answer));
  return answer.issues[0];
}
const propane = { fluid: "R290", mass: "300 g", volume: "3 m3" };

test("300 g in 3.0 m3, stirred and sealed: 263 % of a limit of 0.038 kg/m3, and it never clears", () => {
  const { result } = leak(propane);
  expect(result.lfl).toBeCloseTo(0.038, 9);
  expect(result.overLFL).toBeCloseTo(0.3 / 3 / 0.038, 9);
  expect(result).toMatchObject({ clears: false, minutesAboveLFL: null, burns: "yes" });
  expect(result.safeMass).toBeCloseTo(0.0285, 6);
});

test("twice the limit at 5 changes an hour is above a quarter for 25.0 min", () => {
  const { result } = leak({ ...propane, mass: 2 * 0.038 * 3, airChanges: 5 });
  expect(result.minutesAboveQuarterLFL).toBeCloseTo(24.95, 2);
  expect(result.minutesAboveLFL).toBeCloseTo(12 * Math.log(2), 6);
  expect(result.series.at(-1)?.t).toBeGreaterThan(24.95 * 60);
});

test("blower off: the same charge lies in a layer, m/(A h), and less is safe", () => {
  const { result } = leak({ ...propane, blower: "off", floorArea: 2, layerHeight: "0.3 m" });
  expect(result.peak).toBeCloseTo(0.3 / 0.6, 9);
  expect(result.overLFL).toBe(result.layer.overLFL);
  expect(result.safeMass).toBeCloseTo(0.0095 * 0.6, 9);
  expect(result.stirred.overLFL).toBeCloseTo(2.632, 3);
});

test("fresh air by a named assumption says that it is one", () => {
  const answer = leak({ ...propane, ventilation: "fresh-air-fan" });
  expect(answer.result.minutesAboveLFL).toBeCloseTo(2 * Math.log(0.1 / 0.038), 6);
  expect(answer.assumptions?.join(" ")).toMatch(/assumption, not a measurement/u);
});

describe("through a hole", () => {
  const hole = { ...propane, mass: "240 g", hole: "1 mm", systemVolume: "3 L", airChanges: 5 };

  test("liquid is quicker than flashing liquid, and that than vapour", () => {
    const peaks = [
      { phase: "liquid" },
      { phase: "liquid", discharge: "flashing" },
      { phase: "vapour" },
    ].map((how) => leak({ ...hole, ...how }).result.peak);
    expect(peaks).toEqual([...peaks].sort((a, b) => b - a));
    expect(new Set(peaks).size).toBe(3);
  });

  test("is never worse than all at once", () => {
    expect(leak(hole).result.peak).toBeLessThan(leak({ ...propane, mass: "240 g" }).result.peak);
  });

  test("two ways to say how quick are one too many", () => {
    expect(issueOf({ ...hole, duration: "3 min" })).toMatchObject({ field: "duration" });
  });
});

test("a layer as large as the cabin is none", () => {
  expect(issueOf({ ...propane, floorArea: 4, layerHeight: 1 })).toMatchObject({
    field: "layerHeight",
  });
});

test("R134a does not burn, is near its RCL of 210 g/m3, and gives poison in a flame", () => {
  const { result, cautions } = leak({ fluid: "R134a", mass: "630 g", volume: "3 m3" });
  expect(result).toMatchObject({ burns: "no", lfl: null, overLFL: null, poisonInFlame: true });
  // ASHRAE 34 table 4-1: 50 000 ppm, 210 g/m3, printed to two digits.
  const rcl = result.breathing.find(({ what }) => what === "RCL")?.ratio ?? NaN;
  expect(Math.abs(rcl - 1)).toBeLessThan(0.02);
  expect(cautions.join(" ")).toMatch(/hydrogen fluoride/u);
  // AR6: 1530 (table 7.SM.7).
  const ar6 = result.co2Equivalent.find(({ edition }) => edition === "AR6")?.mass;
  expect(ar6).toBeCloseTo(0.63 * 1530, 6);
});

test("where only tests count there is no limit, unless one is given", () => {
  const mixed = { blend: "R444A", mass: "500 g", volume: "3 m3" };
  const { result, cautions } = leak(mixed);
  expect(result).toMatchObject({ lfl: null, safeMass: null, burns: "yes" });
  expect(cautions.join(" ")).toMatch(/no sign of safety/u);
  const tested = leak({ ...mixed, lfl: "0.32 kg/m3" }).result;
  expect(tested.overLFL).toBeCloseTo(0.5 / 3 / 0.32, 9);
});

test("at 2000 m the limit is reached with a fifth less", () => {
  // 79 495 Pa: standard atmosphere.
  const { result } = leak({ ...propane, altitude: 2000 });
  expect((result.lfl ?? NaN) / 0.038).toBeCloseTo(79495 / 101325, 3);
});
