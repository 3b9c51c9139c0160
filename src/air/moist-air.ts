import { library, ZERO_CELSIUS } from "./library.ts";
import { type OutOfRange, outside } from "./outcome.ts";

/** State of moist air. Per-mass figures are per kg of dry air; enthalpy counts from dry air and liquid at 0 °C. */
export interface MoistAir {
  readonly kind: "air";
  /** Dry-bulb temperature, K. */
  readonly T: number;
  /** Pressure, Pa. */
  readonly p: number;
  /** Fraction of saturation pressure, 0 to 1. */
  readonly relativeHumidity: number;
  /** kg of water per kg of dry air; the library's floor is 1e-7. */
  readonly humidityRatio: number;
  /** Partial pressure of water, Pa. */
  readonly vapourPressure: number;
  /** K; `undefined` when the air is too dry for the equations (below −100 °C). */
  readonly dewPoint: number | undefined;
  /** Thermodynamic wet bulb, K, to 1 mK; over ice below 0 °C; `undefined` with the dew point. */
  readonly wetBulb: number | undefined;
  /** J per kg of dry air. */
  readonly h: number;
  /** m³ per kg of dry air. */
  readonly volume: number;
  /** kg of moist air per m³. */
  readonly rho: number;
}

export type MoistAirOutcome = MoistAir | OutOfRange;

// Air that a vehicle or a shop meets, with room to spare. The equations leave out real-gas factors of about 0.5 %.
const T_MIN = 223.15;
const T_MAX = 363.15;
const P_MIN = 30e3;
const P_MAX = 120e3;
/** The vapour pressure equations end at −100 °C, K. */
const DEW_MIN = 173.15;
/** Driest air whose dew point lies in the range of the vapour pressure equations (−100 °C), Pa. */
const DRIEST = library.GetSatVapPres(-100);

function stateOf(T: number, p: number, humidityRatio: number): MoistAirOutcome {
  const t = T - ZERO_CELSIUS;
  const vapourPressure = library.GetVapPresFromHumRatio(humidityRatio, p);
  const wet = vapourPressure > DRIEST;
  const volume = library.GetMoistAirVolume(t, humidityRatio, p);
  const relativeHumidity = vapourPressure / library.GetSatVapPres(t);
  // A hair above saturation is rounding of the way in and back; more is refused by the callers.
  const above = outside("relative humidity", relativeHumidity, 0, 1 + 1e-6);
  if (above) return above;
  return {
    kind: "air",
    T,
    p,
    relativeHumidity: Math.min(1, relativeHumidity),
    humidityRatio,
    vapourPressure,
    dewPoint: wet
      ? library.GetTDewPointFromHumRatio(t, humidityRatio, p) + ZERO_CELSIUS
      : undefined,
    wetBulb: wet ? library.GetTWetBulbFromHumRatio(t, humidityRatio, p) + ZERO_CELSIUS : undefined,
    h: library.GetMoistAirEnthalpy(t, humidityRatio),
    volume,
    rho: (1 + humidityRatio) / volume,
  };
}

/** Refuses temperatures and pressures that are no air of a shop, and air that would boil water away. */
function refused(T: number, p: number): OutOfRange | undefined {
  const outsideOf = outside("temperature", T, T_MIN, T_MAX) ?? outside("pressure", p, P_MIN, P_MAX);
  if (outsideOf) return outsideOf;
  // Near boiling the humidity ratio runs to infinity: half of the pressure is far past any air that is breathed.
  return outside("saturation pressure of water", library.GetSatVapPres(T - ZERO_CELSIUS), 0, p / 2);
}

/**
 * Moist air from temperature and relative humidity.
 *
 * @param T                Dry-bulb temperature, K; 223.15 to 363.15.
 * @param relativeHumidity Fraction, 0 to 1; over ice below 0 °C.
 * @param p                Pressure of the air, Pa; 30 to 120 kPa.
 * Limits: ideal-gas mixture; the saturated humidity ratio is 0.4 to 0.6 % below the real-gas table at 101.325 kPa
 * (measured at -20, 5, 25 and 50 °C).
 * Source: ASHRAE Handbook Fundamentals (2017), chapter 1, through the package psychrolib 1.1.1 (library 2.5.0).
 * Checked: test/published/moist-air.test.ts.
 */
export function airFromRelativeHumidity(
  T: number,
  relativeHumidity: number,
  p: number,
): MoistAirOutcome {
  return (
    refused(T, p) ??
    outside("relative humidity", relativeHumidity, 0, 1) ??
    stateOf(T, p, library.GetHumRatioFromRelHum(T - ZERO_CELSIUS, relativeHumidity, p))
  );
}

/** Moist air from temperature and dew point (K); otherwise as `airFromRelativeHumidity`. */
export function airFromDewPoint(T: number, dewPoint: number, p: number): MoistAirOutcome {
  return (
    refused(T, p) ??
    outside("dew point", dewPoint, DEW_MIN, T) ??
    stateOf(T, p, library.GetHumRatioFromTDewPoint(dewPoint - ZERO_CELSIUS, p))
  );
}

/**
 * Moist air from temperature and wet bulb (K); otherwise as `airFromRelativeHumidity`.
 *
 * A wet bulb below that of dry air is refused: the library would answer with dry air.
 */
export function airFromWetBulb(T: number, wetBulb: number, p: number): MoistAirOutcome {
  const limits = refused(T, p);
  if (limits) return limits;
  const driest = stateOf(T, p, 2e-7);
  const lowest = driest.kind === "air" ? (driest.wetBulb ?? T_MIN) : T_MIN;
  return (
    outside("wet bulb", wetBulb, lowest, T) ??
    stateOf(T, p, library.GetHumRatioFromTWetBulb(T - ZERO_CELSIUS, wetBulb - ZERO_CELSIUS, p))
  );
}

/** Moist air from temperature and humidity ratio (kg/kg); otherwise as `airFromRelativeHumidity`. */
export function airFromHumidityRatio(T: number, humidityRatio: number, p: number): MoistAirOutcome {
  const limits = refused(T, p);
  if (limits) return limits;
  const most = library.GetSatHumRatio(T - ZERO_CELSIUS, p);
  return (
    outside("humidity ratio", humidityRatio, 0, most) ??
    stateOf(T, p, Math.max(humidityRatio, 1e-7))
  );
}
