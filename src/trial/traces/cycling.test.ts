import { expect, test } from "vitest";
import { createRandom, normal, type Random } from "../../numerics/index.ts";
import { cyclingOf } from "./cycling.ts";

const seconds = Float64Array.from({ length: 300 }, (_, i) => i);

/** A clutch that swings from 45 down to 23 while engaged and back, each period a little different. */
function clutch(random: Random, period: number, jitter: number): Float64Array {
  const y: number[] = [];
  while (y.length < seconds.length) {
    const long = period * (1 + jitter * normal(random));
    for (let i = 0; i < long; i++) {
      const phase = i / long;
      const swing = phase < 0.6 ? 45 - (22 * phase) / 0.6 : 23 + (22 * (phase - 0.6)) / 0.4;
      y.push(swing + 0.5 * normal(random));
    }
  }
  return Float64Array.from(y.slice(0, seconds.length));
}

test.each([12, 30, 60, 75])("a clutch of about %d s is seen, with its two readings", (period) => {
  const random = createRandom(period);
  for (let k = 0; k < 50; k++) {
    const found = cyclingOf(seconds, clutch(random, period, 0.05));
    expect(found, `record ${k}`).toBeDefined();
    expect(Math.abs((found?.lowest.value ?? 0) - 23)).toBeLessThan(2);
    expect(Math.abs((found?.highest.value ?? 0) - 45)).toBeLessThan(2);
  }
});

test.each([0, 0.5, 0.9, 0.98])("wandering noise with phi %f is no clutch", (phi) => {
  const random = createRandom(5);
  for (let k = 0; k < 300; k++) {
    let state = normal(random);
    const y = seconds.map(() => {
      state = phi * state + Math.sqrt(1 - phi * phi) * normal(random);
      return state;
    });
    expect(cyclingOf(seconds, y), `record ${k}`).toBeUndefined();
  }
});

test("two swings are too few, a flat line is none", () => {
  const slow = seconds.map((x) => 30 + 10 * Math.sin((2 * Math.PI * x) / 150));
  expect(cyclingOf(seconds, slow)).toBeUndefined();
  expect(
    cyclingOf(
      seconds,
      seconds.map(() => 4),
    ),
  ).toBeUndefined();
});
