import { describe, expect, test } from "vitest";
import { mixStateTRho, mixStateTP, mixStatePH } from "./flash-states.ts";
import { mixture } from "./mixture.ts";
import type { MixOutcome, MixState } from "./mix-state.ts";
import {
  bubbleAtP,
  bubbleAtT,
  dewAtP,
  dewAtT,
  mixStatePQ,
  mixStateTQ,
} from "./saturation-states.ts";

function stateOf(outcome: MixOutcome): MixState {
  if (outcome.kind !== "state") throw new Error(JSON.stringify(outcome));
  return outcome;
}

const hydrocarbons = mixture(["R290", "R600a"]);
const half = [0.5, 0.5];

describe("bubble and dew points", () => {
  test("bubble pressure lies above dew pressure, the vapour holds more of the light fluid", () => {
    const bubble = stateOf(bubbleAtT(hydrocarbons, half, 300));
    const dew = stateOf(dewAtT(hydrocarbons, half, 300));
    expect(bubble.p).toBeGreaterThan(dew.p);
    expect([bubble.beta, dew.beta]).toEqual([0, 1]);
    expect(bubble.phases[1]?.x[0]).toBeGreaterThan(0.5);
    expect(dew.phases[0]?.x[0]).toBeLessThan(0.5);
  });

  test("from p they come back to T", () => {
    for (const T of [240, 300, 380, 391]) {
      const bubble = stateOf(bubbleAtT(hydrocarbons, half, T));
      const dew = stateOf(dewAtT(hydrocarbons, half, T));
      expect(stateOf(bubbleAtP(hydrocarbons, half, bubble.p)).T / T).toBeCloseTo(1, 11);
      expect(stateOf(dewAtP(hydrocarbons, half, dew.p)).T / T).toBeCloseTo(1, 11);
    }
  });

  test("a vapour fraction between lies between, at T and at p", () => {
    const found = stateOf(mixStateTQ(hydrocarbons, half, 300, 0.5));
    expect(found.beta).toBe(0.5);
    expect(stateOf(mixStatePQ(hydrocarbons, half, found.p, 0.5)).T).toBeCloseTo(300, 9);
    const again = stateOf(mixStateTP(hydrocarbons, half, 300, found.p));
    expect(again.beta).toBeCloseTo(0.5, 9);
  });

  test("beyond the envelope there is no solution, and the answer says how far it reaches", () => {
    // The critical temperature of the blend is near 394 K, its critical pressure near 4.18 MPa.
    for (const outcome of [bubbleAtT(hydrocarbons, half, 400), dewAtT(hydrocarbons, half, 400)]) {
      expect(outcome).toMatchObject({ kind: "failed", reason: "no-solution", quantity: "T" });
      if (outcome.kind === "failed" && outcome.reason === "no-solution") {
        expect(outcome.to).toBeGreaterThan(392);
        expect(outcome.to).toBeLessThan(395);
      }
    }
    const outcome = bubbleAtP(hydrocarbons, half, 5e6);
    expect(outcome).toMatchObject({ kind: "failed", reason: "no-solution", quantity: "p" });
  });

  test("of half nitrogen there is no bubble point at all below the highest pressure", () => {
    const air = mixture(["R134a", "R728"]);
    const outcome = bubbleAtT(air, half, 300);
    expect(outcome).toMatchObject({ reason: "no-solution", from: null, to: null });
  });

  test("dissolved nitrogen raises the bubble pressure by far", () => {
    const air = mixture(["R134a", "R728"]);
    const clean = stateOf(bubbleAtT(air, [1, 0], 300));
    const wet = stateOf(bubbleAtT(air, [0.98, 0.02], 300));
    expect(wet.p).toBeGreaterThan(4 * clean.p);
    expect(wet.estimates).toHaveLength(1);
  });

  test("outside the limits of the equations a failure names them", () => {
    expect(bubbleAtT(hydrocarbons, half, 100)).toMatchObject({
      reason: "out-of-range",
      quantity: "T",
      from: 113.73,
    });
    expect(mixStateTP(hydrocarbons, half, 300, 4e7)).toMatchObject({ reason: "out-of-range" });
    expect(mixStateTP(hydrocarbons, half, 300, 0)).toMatchObject({ reason: "out-of-range" });
    expect(mixStatePH(hydrocarbons, half, 1e6, 1e9)).toMatchObject({
      reason: "out-of-range",
      quantity: "h",
    });
    expect(mixStateTQ(hydrocarbons, half, 300, 1.5)).toMatchObject({ quantity: "beta" });
  });

  test("fractions and numbers that make no sense are the caller's bug", () => {
    expect(() => bubbleAtT(hydrocarbons, [0.5], 300)).toThrow(RangeError);
    expect(() => bubbleAtT(hydrocarbons, [0.7, 0.5], 300)).toThrow(RangeError);
    expect(() => bubbleAtT(hydrocarbons, [1.5, -0.5], 300)).toThrow(RangeError);
    expect(() => bubbleAtT(hydrocarbons, half, NaN)).toThrow(RangeError);
    expect(() => mixStateTP(hydrocarbons, half, 300, Infinity)).toThrow(RangeError);
  });
});

describe("a vessel of known volume", () => {
  test("holds two phases at a density between those of bubble and dew point", () => {
    const found = stateOf(mixStateTRho(hydrocarbons, half, 300, 5000));
    expect(found.phase).toBe("two-phase");
    const [liquid, vapour] = found.phases;
    const v = (1 - found.beta) / (liquid?.rho ?? 0) + found.beta / (vapour?.rho ?? 0);
    expect(v * 5000).toBeCloseTo(1, 11);
  });

  test("that is too full for its liquid has a high pressure, or one out of range", () => {
    expect(stateOf(mixStateTRho(hydrocarbons, half, 300, 10400)).p).toBeGreaterThan(2e6);
    expect(mixStateTRho(hydrocarbons, half, 300, 14000)).toMatchObject({
      reason: "out-of-range",
      quantity: "p",
    });
  });
});
