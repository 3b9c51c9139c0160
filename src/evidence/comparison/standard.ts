import type { Conditions } from "../../vehicle/index.ts";

/** A named set of conditions to which effects are carried. */
export interface StandardCondition {
  /** K */
  readonly ambient: number;
  readonly humidity: number;
  readonly driving: boolean;
  readonly conditions: Conditions;
}

const HUMIDITY = 0.5;
const KELVIN = 273.15;
/** Engine speeds and cabin pull-downs of a short idle and of a long drive (common practice, no source). */
const idle = { speed: 0, engineSpeed: 700 / 60, share: 0.45 };
const road = { speed: 72 / 3.6, engineSpeed: 1600 / 60, share: 0.9 };

/**
 * 25 and 35 °C, 50 % relative humidity, idle and 72 km/h (45 mph), recirculation, full blower.
 *
 * @param pAir Pressure of the air at the place of the trial, Pa.
 */
export const standardConditions = (pAir: number): StandardCondition[] =>
  [25, 35].flatMap((celsius) =>
    [idle, road].map(({ speed, engineSpeed, share }) => {
      const ambient = celsius + KELVIN;
      return {
        ambient,
        humidity: HUMIDITY,
        driving: speed > 0,
        conditions: {
          ambient,
          humidity: HUMIDITY,
          pAir,
          speed,
          engineSpeed,
          blower: 1,
          recirculation: 1,
          returnAir: { kind: "pull-down", share } as const,
          occupants: 1,
        },
      };
    }),
  );
