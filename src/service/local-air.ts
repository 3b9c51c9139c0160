import { type OutOfRange, SEA_LEVEL_PRESSURE, standardPressure } from "../air/index.ts";
import { rectangular } from "./accuracy.ts";

/** The air around the gauge: what gauge pressures count from. */
export interface LocalAir {
  readonly kind: "local-air";
  /** Station pressure, Pa. */
  readonly p: number;
  /** Standard uncertainty, Pa. */
  readonly u: number;
  readonly basis: "barometer" | "altitude" | "assumed";
  /** The barometer is so far from the altitude that it looks like a forecast's sea-level figure. */
  readonly doubt: "sea-level-figure" | undefined;
}

/** Weather moves station pressure about its standard value: ± 1 kPa, one standard deviation (common practice, no source). */
export const WEATHER_U = 1000;
/** Limit of error of a workshop barometer or a telephone's, when none is stated (common practice, no source). */
const BAROMETER_LIMIT = 200;
/** More than weather does outside of storms (common practice, no source). */
const DOUBTFUL = 4000;
/** Lowest and highest station pressure taken as air, Pa: 5500 m in a storm, and the Dead Sea with a margin. */
const LOWEST = 45e3;
const HIGHEST = 115e3;

function fromBarometer(
  p: number,
  limit: number,
  altitude: number | undefined,
): LocalAir | OutOfRange {
  if (!(p >= LOWEST && p <= HIGHEST)) {
    return { kind: "out-of-range", quantity: "barometer", value: p, from: LOWEST, to: HIGHEST };
  }
  const expected = altitude === undefined ? undefined : standardPressure(altitude);
  if (expected?.kind === "out-of-range") return expected;
  const doubtful = expected !== undefined && Math.abs(expected.p - p) > DOUBTFUL;
  return {
    kind: "local-air",
    p,
    u: rectangular(limit),
    basis: "barometer",
    doubt: doubtful ? "sea-level-figure" : undefined,
  };
}

/**
 * The local air from a barometer, else from the altitude, else assumed to be that of sea level.
 *
 * @param known `barometer`: station pressure, Pa. `barometerLimit`: its limit of error, Pa. `altitude`: m.
 * @returns the air with its standard uncertainty, or the range that was left.
 */
export function localAir(
  known: {
    readonly barometer?: number | undefined;
    readonly barometerLimit?: number | undefined;
    readonly altitude?: number | undefined;
  } = {},
): LocalAir | OutOfRange {
  if (known.barometer !== undefined) {
    return fromBarometer(known.barometer, known.barometerLimit ?? BAROMETER_LIMIT, known.altitude);
  }
  const basis = known.altitude === undefined ? "assumed" : "altitude";
  const air = known.altitude === undefined ? undefined : standardPressure(known.altitude);
  if (air?.kind === "out-of-range") return air;
  const p = air?.p ?? SEA_LEVEL_PRESSURE;
  return { kind: "local-air", p, u: WEATHER_U, basis, doubt: undefined };
}
