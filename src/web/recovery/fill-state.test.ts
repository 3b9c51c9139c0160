import { expect, test } from "vitest";
import type { StopMark } from "../../trial/index.ts";
import { fillState } from "./fill-state.ts";

const mark = { tare: 5, maxMass: 8, maxGross: 13 } as StopMark;

test.each([
  [4.9, "below tare", 8.1],
  [5, "room left", 8],
  [12.1, "room left", 0.9],
  [12.3, "nearly full", 0.7],
  [13, "nearly full", 0],
  [13.2, "over the limit", -0.2],
])("%d kg: %s", (gross, word, left) => {
  const state = fillState(mark, gross);
  expect(state.word).toBe(word);
  expect(state.left).toBeCloseTo(left, 9);
});
