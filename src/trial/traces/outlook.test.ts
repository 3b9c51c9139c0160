import { expect, test } from "vitest";
import { createRandom, normal } from "../../numerics/index.ts";
import { outlookOf } from "./outlook.ts";
import { settle } from "./settle.ts";

/** A vent that cools from 30 °C towards 7 °C, as made up here: the truth is known. */
const tau = 140;
const truth = (s: number): number => 280.15 + 23 * Math.exp(-s / tau);
const times = (n: number) => Float64Array.from({ length: n }, (_, i) => i);
const record = (n: number, noise: number, seed = 5) => {
  const random = createRandom(seed);
  const t = times(n);
  return { t, y: t.map((s) => truth(s) + noise * normal(random)) };
};
const limit = 0.1 / 60;

test("a forecast made early meets the end and the moment that come", () => {
  const settledAt = times(2000).find((n) => {
    if (n < 300) return false;
    const { t, y } = record(n, 0);
    return settle(t, y, { slopeLimit: limit }).kind === "settled";
  });
  const { t, y } = record(290, 0.05);
  const outlook = outlookOf(t, y, "vent-temperature");
  expect(outlook.settlement.kind).toBe("too-short");
  expect(Math.abs((outlook.end?.value ?? 0) - 280.15)).toBeLessThan(0.3);
  expect(Math.abs(290 + (outlook.inSeconds ?? 0) - (settledAt ?? 0))).toBeLessThan(45);
});

test("the end it gives lies within three of its own uncertainties in nearly all repeats", () => {
  let outside = 0;
  for (let seed = 0; seed < 100; seed++) {
    const { t, y } = record(300, 0.1, seed);
    const { end } = outlookOf(t, y, "vent-temperature");
    if (!end || Math.abs(end.value - 280.15) > 3 * end.u) outside++;
  }
  expect(outside).toBeLessThanOrEqual(5);
});

test("it says nothing that the record cannot carry", () => {
  const short = record(30, 0.1);
  expect(outlookOf(short.t, short.y, "vent-temperature").inSeconds).toBeUndefined();
  const line = times(200);
  expect(
    outlookOf(
      line,
      line.map((s) => 290 + 0.05 * s),
      "vent-temperature",
    ).end,
  ).toBeUndefined();
  const steady = record(2000, 0.05);
  expect(outlookOf(steady.t, steady.y, "vent-temperature")).toMatchObject({
    settlement: { kind: "settled" },
    inSeconds: 0,
  });
  expect(() => outlookOf(new Float64Array(), new Float64Array(), "low-side")).toThrow(RangeError);
});

test("a quantity without a limit is settled when its window is full", () => {
  const t = times(100);
  const outlook = outlookOf(
    t,
    t.map(() => 0.5),
    "return-air-humidity",
  );
  expect(outlook.inSeconds).toBe(201);
});
