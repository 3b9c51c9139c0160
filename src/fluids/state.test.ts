import { describe, expect, test } from "vitest";
import {
  createStateWork,
  fluid,
  saturationAtP,
  saturationAtT,
  statePH,
  statePQ,
  statePS,
  stateTP,
  stateTQ,
  stateTRho,
  type State,
  type StateOutcome,
} from "./index.ts";

const r134a = fluid("R134a");
const { critical, info } = r134a;

function stateOf(outcome: StateOutcome): State {
  if (outcome.kind !== "state") expect.fail(JSON.stringify(outcome));
  return outcome;
}

describe("phases are named by their definition", () => {
  const [Tc, pc] = [critical.T, critical.p];
  test.each([
    [0.9 * Tc, 0.9 * pc, "liquid"],
    [0.9 * Tc, 0.1 * pc, "gas"],
    [0.9 * Tc, 1.1 * pc, "supercritical-liquid"],
    [1.1 * Tc, 0.9 * pc, "supercritical-gas"],
    [1.1 * Tc, 1.1 * pc, "supercritical"],
  ])("T = %d K, p = %d Pa is %s", (T, p, phase) => {
    expect(stateOf(stateTP(r134a, T, p)).phase).toBe(phase);
  });

  test("between saturated densities there are two phases without cv, cp and w", () => {
    const saturated = saturationAtT(r134a, 280);
    if (saturated.kind !== "saturated") expect.fail("no saturation");
    const volume = 0.75 / saturated.rhoL + 0.25 / saturated.rhoV;
    const state = stateOf(stateTRho(r134a, 280, 1 / volume));
    expect(state).toMatchObject({ phase: "two-phase", cv: null, cp: null, w: null });
    expect(state.q).toBeCloseTo(0.25, 12);
    expect(state.p).toBe(saturated.p);
    expect(state.u).toBeCloseTo(state.h - state.p / state.rho, 6);
  });

  test("exactly on the saturation curve (T, p) gives the liquid", () => {
    const saturated = saturationAtT(r134a, 280);
    if (saturated.kind !== "saturated") expect.fail("no saturation");
    expect(stateOf(stateTP(r134a, 280, saturated.p)).phase).toBe("liquid");
    expect(stateOf(stateTP(r134a, 280, saturated.p * (1 - 1e-10))).phase).toBe("gas");
  });
});

describe("what cannot be is told with its limits", () => {
  test("saturation above the critical point and below the least temperature", () => {
    expect(saturationAtT(r134a, 380)).toEqual({
      kind: "out-of-range",
      quantity: "T",
      value: 380,
      from: info.Tmin,
      to: critical.T,
      reason: "supercritical",
    });
    expect(saturationAtT(r134a, 150)).toMatchObject({ reason: "below-minimum" });
    expect(saturationAtP(r134a, 5e6)).toMatchObject({ reason: "supercritical", to: critical.p });
    expect(saturationAtP(r134a, 1)).toMatchObject({ reason: "below-minimum", quantity: "p" });
    expect(saturationAtP(r134a, -3)).toMatchObject({ reason: "below-minimum" });
    expect(stateTQ(r134a, 380, 0.5)).toMatchObject({ kind: "failed", reason: "supercritical" });
    expect(statePQ(r134a, 1, 0.5)).toMatchObject({ kind: "failed", reason: "below-minimum" });
  });

  test.each([
    ["T too high", stateTP(r134a, 500, 1e5), "T", info.Tmax],
    ["p too high", stateTP(r134a, 300, 1e9), "p", info.pmax],
    ["p of zero", stateTP(r134a, 300, 0), "p", info.pmax],
    ["negative density", stateTRho(r134a, 300, -1), "rho", Infinity],
    ["no density", stateTRho(r134a, 300, 0), "rho", Infinity],
    ["density beyond the greatest pressure", stateTRho(r134a, 300, 2e4), "p", info.pmax],
    ["quality above 1", stateTQ(r134a, 300, 1.2), "q", 1],
    ["quality below 0", statePQ(r134a, 1e5, -0.2), "q", 1],
    ["negative pressure", statePH(r134a, -1, 3e4), "p", info.pmax],
  ])("%s", (_, outcome, quantity, to) => {
    expect(outcome).toMatchObject({ kind: "failed", reason: "out-of-range", quantity, to });
  });

  test("an enthalpy or entropy beyond the limits of temperature comes with its range", () => {
    for (const p of [1, 1e5, 3e6, 1e7]) {
      for (const value of [-1e6, 1e6]) {
        const outcome = statePH(r134a, p, value);
        expect(outcome).toMatchObject({ kind: "failed", reason: "out-of-range", quantity: "h" });
        if (outcome.kind !== "failed" || outcome.reason !== "out-of-range") continue;
        expect(outcome.from).toBeLessThan(outcome.to);
        expect(stateOf(statePH(r134a, p, outcome.from)).T).toBeCloseTo(info.Tmin, 6);
        expect(stateOf(statePH(r134a, p, outcome.to)).T).toBeCloseTo(info.Tmax, 6);
      }
      expect(statePS(r134a, p, 1e4)).toMatchObject({ reason: "out-of-range", quantity: "s" });
    }
  });

  test("a number that is not finite is the caller's bug", () => {
    for (const bad of [Number.NaN, Infinity, -Infinity]) {
      expect(() => saturationAtT(r134a, bad)).toThrow(RangeError);
      expect(() => saturationAtP(r134a, bad)).toThrow(RangeError);
      for (const call of [stateTRho, stateTP, stateTQ, statePQ, statePH, statePS]) {
        expect(() => call(r134a, bad, 0.5)).toThrow(RangeError);
        expect(() => call(r134a, 300, bad)).toThrow(RangeError);
      }
    }
  });
});

test("a call with its own scratch gives the same and leaves the fluid's alone", () => {
  const work = createStateWork(r134a);
  const own = stateOf(statePH(r134a, 1e6, 4.2e4, work));
  const shared = stateOf(statePH(r134a, 1e6, 4.2e4));
  expect(own).toEqual(shared);
});
