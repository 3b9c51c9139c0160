import { describe, expect, test } from "vitest";
import { operatingData } from "./operating-data.ts";
import { cyclingSwitchPosition, operatingPressure, ventTemperature } from "./operating-table.ts";

const K = 273.15;
const steady = (p: number, u = 0) => ({ form: "steady", p, u }) as const;
const at = (t: number, u = 0) => ({ T: t + K, u });

describe("published running pressures", () => {
  test("columns are as long as their axis and every source is named", () => {
    const { pressures, vent, cyclingSwitch, sources } = operatingData;
    for (const { from, to } of [pressures.high, pressures.low]) {
      expect(from).toHaveLength(pressures.ambient.values.length);
      from.forEach((value, i) => {
        expect(value).toBeLessThan(to[i] ?? NaN);
      });
    }
    for (const { from, to } of vent.bands) expect([from.length, to.length]).toEqual([3, 3]);
    const keys = [
      pressures.source,
      vent.source,
      ...cyclingSwitch.settings.map(({ source }) => source),
    ];
    for (const key of keys) expect(sources).toHaveProperty(key);
  });

  // The table's own rows, kPa gauge.
  test.each([
    ["high", 25, 1204, 1471],
    ["high", 40, 1870, 2285],
    ["low", 30, 196, 240],
    ["low", 35, 229, 280],
  ] as const)("%s side at %d °C", (side, t, from, to) => {
    const outcome = operatingPressure({
      side,
      fluid: "R134a",
      ambient: at(t),
      pressure: steady(from * 1000),
    });
    expect(outcome).toMatchObject({ kind: "judged", verdict: "within", difference: 0 });
    if (outcome.kind !== "judged") return;
    expect(outcome.published.from).toBeCloseTo(from * 1000, 6);
    expect(outcome.published.to).toBeCloseTo(to * 1000, 6);
  });

  test("between rows, with the instruments' uncertainty around the band", () => {
    const ambient = at(32.5, 1);
    const outcome = operatingPressure({
      side: "high",
      fluid: "R134a",
      ambient,
      pressure: steady(1.8e6, 3e4),
    });
    if (outcome.kind !== "judged") throw new Error("undecided");
    expect(outcome.published.to).toBeCloseTo(1.705e6, 3);
    expect(outcome.difference).toBeCloseTo(0.095e6, 3);
    // (1500+1820)/2 − (1300+1590)/2 over 5 K is 43 kPa/K.
    expect(outcome.u).toBeCloseTo(Math.hypot(3e4, 4.3e4), 3);
    expect(outcome.verdict).toBe("within");
    const far = operatingPressure({
      side: "high",
      fluid: "R134a",
      ambient,
      pressure: steady(1.0e6, 3e4),
    });
    expect(far).toMatchObject({ verdict: "lower" });
  });

  test("outside of the table, with another fluid or a cycling clutch it does not judge", () => {
    const pressure = steady(2e5);
    expect(
      operatingPressure({ side: "low", fluid: "R134a", ambient: at(20), pressure }),
    ).toMatchObject({
      kind: "undecided",
      reason: "outside-table",
      limits: { quantity: "ambient", from: 25 + K, to: 40 + K },
    });
    expect(
      operatingPressure({ side: "low", fluid: "R1234yf", ambient: at(30), pressure }),
    ).toMatchObject({
      reason: "other-fluid",
    });
    const cycling = { form: "cycling", u: 5e3 } as const;
    expect(
      operatingPressure({ side: "low", fluid: "R134a", ambient: at(30), pressure: cycling }),
    ).toMatchObject({
      reason: "cycling-clutch",
    });
  });
});

describe("published vent temperatures", () => {
  test("a row, the line between two bands, and outside", () => {
    const reading = { fluid: "R134a", inlet: at(25), vent: at(9) };
    expect(ventTemperature({ ...reading, relativeHumidity: 0.55 })).toMatchObject({
      verdict: "within",
    });
    expect(ventTemperature({ ...reading, relativeHumidity: 0.65 })).toMatchObject({
      verdict: "lower",
    });
    const line = ventTemperature({ ...reading, relativeHumidity: 0.6 });
    expect(line.kind === "judged" && line.published.to - line.published.from).toBeCloseTo(5, 9);
    expect(ventTemperature({ ...reading, relativeHumidity: 0.3 })).toMatchObject({
      reason: "outside-table",
    });
    expect(ventTemperature({ ...reading, inlet: at(35), relativeHumidity: 0.55 })).toMatchObject({
      reason: "outside-table",
    });
  });
});

test("the ends of a cycling low side against published switch settings", () => {
  expect(cyclingSwitchPosition("lowest", 160e3, 5e3)).toMatchObject({
    position: "among",
    published: { from: 152e3, to: 175e3 },
  });
  expect(cyclingSwitchPosition("lowest", 100e3, 5e3)).toMatchObject({ position: "below" });
  expect(cyclingSwitchPosition("highest", 330e3, 5e3)).toMatchObject({ position: "among" });
  expect(cyclingSwitchPosition("highest", 340e3, 5e3)).toMatchObject({ position: "above" });
});
