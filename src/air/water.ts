import { library, ZERO_CELSIUS } from "./library.ts";
import { type OutOfRange, outside } from "./outcome.ts";

/** Triple point of water, K: below it the pressure is that over ice. */
export const TRIPLE_POINT = 273.16;

// The range of the vapour pressure equations, ASHRAE Fundamentals (2017), chapter 1, equations 5 and 6.
const T_MIN = 173.15;
const T_MAX = 473.15;

const saturation = (T: number): number => library.GetSatVapPres(T - ZERO_CELSIUS);

/**
 * Saturation pressure of water, over ice below the triple point and over liquid above it.
 *
 * @param T Temperature, K; 173.15 to 473.15.
 * @returns Pressure, Pa, and what it is over.
 * Limits: measured, 0.023 % at most over liquid up to 200 °C (against IAPWS-95, worst at 25 °C) and 0.033 % over
 * ice down to −100 °C (against the IAPWS equation of sublimation, 2011): 4 mK and 3 mK of boiling temperature.
 * Source: ASHRAE Handbook Fundamentals (2017), chapter 1, equations 5 and 6.
 * Checked: water.test.ts, test/published/water.test.ts.
 */
export function waterSaturation(
  T: number,
): { readonly kind: "pressure"; readonly p: number; readonly over: "ice" | "liquid" } | OutOfRange {
  return (
    outside("temperature", T, T_MIN, T_MAX) ?? {
      kind: "pressure",
      p: saturation(T),
      over: T < TRIPLE_POINT ? "ice" : "liquid",
    }
  );
}

/** Width at which the search stops, K: far below the error of the equations (about 5 mK). */
const CLOSE = 1e-9;

/**
 * Temperature at which water boils, or ice sublimes, at a pressure; the inverse of `waterSaturation`.
 *
 * The two branches do not meet exactly at the triple point; bisection on a rising function gives the triple
 * point for any pressure in that gap of about 1e-5 Pa.
 *
 * @param p Absolute pressure, Pa; about 0.0014 Pa to 1.55 MPa.
 */
export function waterBoiling(
  p: number,
):
  | { readonly kind: "temperature"; readonly T: number; readonly from: "ice" | "liquid" }
  | OutOfRange {
  const refused = outside("pressure", p, saturation(T_MIN), saturation(T_MAX));
  if (refused) return refused;
  let low = T_MIN;
  let high = T_MAX;
  while (high - low > CLOSE) {
    const middle = (low + high) / 2;
    if (saturation(middle) < p) low = middle;
    else high = middle;
  }
  const T = (low + high) / 2;
  return { kind: "temperature", T, from: T < TRIPLE_POINT ? "ice" : "liquid" };
}
