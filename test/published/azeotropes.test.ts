// Measured azeotropes: Bobbo, Camporese, Stryjek, J. Chem. Eng. Data 43 (1998) 241, doi:10.1021/je970191u, as
// its abstract in the catalogue of the US Department of Energy (OSTI 624285) gives them at 283.18 K:
// 1000.5 kPa at x = 0.386 and 796 kPa at x = 0.363. Authors and page are recalled.
//
// The abstract names the first for R134a + R290 and the second for R290 + R143a. A positive azeotrope
// lies above both vapour pressures, and that of R143a alone is 837 kPa: the names are exchanged there.
import { describe, expect, test } from "vitest";
import {
  bubbleAtT,
  fluid,
  mixture,
  saturationAtT,
  type FluidId,
  type MixState,
} from "../../src/fluids/index.ts";

const T = 283.18;

/** First fluid's fraction where liquid and vapour have one composition, by bisection of y − x. */
function azeotrope(first: FluidId, second: FluidId): { readonly x: number; readonly state: MixState } {
  const mix = mixture([first, second]);
  const at = (x: number): MixState => {
    const found = bubbleAtT(mix, [x, 1 - x], T);
    if (found.kind !== "state") throw new Error(JSON.stringify(found));
    return found;
  };
  let [low, high] = [0.05, 0.95];
  for (let k = 0; k < 40; k++) {
    const x = 0.5 * (low + high);
    if ((at(x).phases[1]?.x[0] ?? 0) > x) low = x;
    else high = x;
  }
  return { x: low, state: at(low) };
}

describe.each([
  ["R134a", "R290", 796e3, 0.363],
  ["R290", "R143a", 1000.5e3, 0.386],
] as const)("%s + %s at 283.18 K", (first, second, measured, fraction) => {
  const { x, state } = azeotrope(first, second);

  test("pressure within 1.5 %, composition within 0.015 of the measured one", () => {
    expect(Math.abs(state.p / measured - 1)).toBeLessThan(0.015);
    expect(Math.abs(x - fraction)).toBeLessThan(0.015);
  });

  test("it lies above both vapour pressures, and its phases have one composition", () => {
    for (const id of [first, second]) {
      const pure = saturationAtT(fluid(id), T);
      if (pure.kind !== "saturated") throw new Error(JSON.stringify(pure));
      expect(state.p).toBeGreaterThan(pure.p);
    }
    expect(state.phases[1]?.x[0]).toBeCloseTo(x, 8);
  });
});
