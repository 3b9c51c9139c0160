import { type OutOfRange, outside } from "./outcome.ts";

/** Pressure of the standard atmosphere at sea level, Pa. */
export const SEA_LEVEL_PRESSURE = 101325;

// ASHRAE Handbook Fundamentals (2017), chapter 1, equation 3; stated range −5000 to 11 000 m.
const LAPSE = 2.25577e-5;
const EXPONENT = 5.25588;
const LOWEST = -5000;
const HIGHEST = 11000;

const pressureAt = (altitude: number): number =>
  SEA_LEVEL_PRESSURE * (1 - LAPSE * altitude) ** EXPONENT;

/**
 * Pressure of the standard atmosphere at an altitude: what the air weighs there on an average day.
 *
 * The weather moves the true station pressure by about 1 kPa to either side (common practice, no source).
 *
 * @param altitude Above sea level, m; −5000 to 11 000.
 * @returns Pressure, Pa, or the range that has one.
 * Source: ASHRAE Handbook Fundamentals (2017), chapter 1, equation 3.
 */
export function standardPressure(
  altitude: number,
): { readonly kind: "pressure"; readonly p: number } | OutOfRange {
  return (
    outside("altitude", altitude, LOWEST, HIGHEST) ?? { kind: "pressure", p: pressureAt(altitude) }
  );
}

/**
 * Altitude at which the standard atmosphere has this pressure; the inverse of `standardPressure`.
 *
 * @param p Station pressure, Pa: what a barometer reads on the spot, not the sea-level figure of a forecast.
 */
export function altitudeAt(
  p: number,
): { readonly kind: "altitude"; readonly altitude: number } | OutOfRange {
  return (
    outside("pressure", p, pressureAt(HIGHEST), pressureAt(LOWEST)) ?? {
      kind: "altitude",
      altitude: (1 - (p / SEA_LEVEL_PRESSURE) ** (1 / EXPONENT)) / LAPSE,
    }
  );
}
