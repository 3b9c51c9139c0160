import { expect, test } from "vitest";
import { shownIn } from "../../report/index.ts";
import type { TraceView } from "../../trial/index.ts";
import { allSettled, inAbout, standingsOf, standingWords } from "./standing.ts";

const vent = (n: number): TraceView["series"][number] => {
  const t = Float64Array.from({ length: n }, (_, i) => i);
  const values = t.map((s) => 280.15 + 20 * Math.exp(-s / 100) + 0.02 * Math.sin(s));
  return { column: "vent", quantity: "vent-temperature", unit: "°C", t, values };
};
const speed = (n: number): TraceView["series"][number] => ({
  column: "speed",
  quantity: "vehicle-speed",
  unit: "km/h",
  t: Float64Array.from({ length: n }, (_, i) => i),
  values: new Float64Array(n),
});
const trace = (...series: TraceView["series"]) => ({ series }) as unknown as TraceView;
const words = (n: number) => {
  const [first] = standingsOf(trace(vent(n)));
  return first && standingWords(first, shownIn("°C"));
};

test("each stage of a settling quantity is said in its own words", () => {
  expect(words(40)).toMatchObject({ word: "Wait" });
  expect(words(250)?.sentence).toMatch(/^It goes to about 7\.0.°C, settled in about \d+ (min|s)$/u);
  expect(words(1500)).toMatchObject({ word: "Settled" });
  expect(words(1500)?.sentence).toMatch(/^at 7\.0/);
});

test("speeds are shown and not waited for; nothing at all is not settled", () => {
  expect(allSettled(standingsOf(trace(vent(1500), speed(10))))).toBe(true);
  expect(allSettled(standingsOf(trace(vent(100), speed(10))))).toBe(false);
  expect(allSettled(standingsOf(trace(speed(1500))))).toBe(false);
  expect(allSettled([])).toBe(false);
});

test("times are said to what they are worth", () => {
  expect([inAbout(3), inAbout(42), inAbout(130)]).toEqual([
    "in about 10 s",
    "in about 50 s",
    "in about 3 min",
  ]);
});
