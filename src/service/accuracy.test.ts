import { describe, expect, test } from "vitest";
import {
  combined,
  instrumentUncertainty,
  limitOfError,
  ofResolution,
  rectangular,
} from "./accuracy.ts";

const PSI = 6894.757293168361;

describe("limit of error", () => {
  // ASME B40.100 grade B (from memory of the standard): 500 psi gives 15/10/15 psi, 120 psi gives 3.6/2.4/3.6 psi.
  test.each([
    [500, 50, 15],
    [500, 250, 10],
    [500, 480, 15],
    [120, 10, 3.6],
    [120, 60, 2.4],
    [120, 110, 3.6],
    [120, 30, 3.6],
  ])("3-2-3 gauge of %d psi at %d psi", (to, reading, limit) => {
    const accuracy = {
      kind: "percent-of-span-by-quarter",
      outer: 3,
      middle: 2,
      from: 0,
      to,
    } as const;
    expect(limitOfError(accuracy, reading)).toBeCloseTo(limit, 10);
  });

  // EN 837-1 class 1.6 (from memory of the standard): 35 bar gives 0.56 bar.
  test("class 1.6 of 35 bar", () => {
    expect(limitOfError({ kind: "percent-of-span", percent: 1.6, from: 0, to: 35 }, 5)).toBeCloseTo(
      0.56,
      10,
    );
  });

  test("of the reading, and the larger of two", () => {
    expect(limitOfError({ kind: "percent-of-reading", percent: 10 }, -500)).toBe(50);
    // IEC 60584-1 class 2, type K (from memory): 2.5 °C or 0.75 %.
    const typeK = { kind: "limit-or-percent", limit: 2.5, percent: 0.75 } as const;
    expect(limitOfError(typeK, 100)).toBe(2.5);
    expect(limitOfError(typeK, 400)).toBe(3);
  });

  test("a scale that does not rise and a reading that is no number are bugs", () => {
    expect(() => limitOfError({ kind: "percent-of-span", percent: 1, from: 5, to: 5 }, 1)).toThrow(
      RangeError,
    );
    expect(() => limitOfError({ kind: "limit", limit: 1 }, NaN)).toThrow(RangeError);
  });
});

describe("standard uncertainty", () => {
  // JCGM 100:2008, 4.3.7 and F.2.2.1.
  test("rectangular and resolution", () => {
    expect(rectangular(Math.sqrt(3))).toBeCloseTo(1, 12);
    expect(ofResolution(1)).toBeCloseTo(0.28867513, 7);
    expect(
      combined([
        { name: "a", u: 3 },
        { name: "b", u: 4 },
      ]),
    ).toBe(5);
    const gauge = instrumentUncertainty({ kind: "limit", limit: 3 * PSI }, 85 * PSI, PSI);
    expect(gauge.u).toBeCloseTo(PSI * Math.hypot(3 / Math.sqrt(3), 1 / Math.sqrt(12)), 6);
    expect(gauge.contributions).toHaveLength(2);
  });
});
