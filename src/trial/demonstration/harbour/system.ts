import { airFromHumidityRatio } from "../../../air/index.ts";
import { bulkAtTRho, materialOf, toMoles } from "../../../service/index.ts";
import { type Composition, runVehicle, sizedVehicle } from "../../../vehicle/index.ts";
import { harbourTruth } from "./truth.ts";

/** Air and speed of a run. */
export interface Weather {
  /** K, and relative humidity 0 to 1. */
  readonly ambient: number;
  readonly humidity: number;
}

/** What the instruments would show in the end, without their own errors: Pa absolute, K, fraction, m/s. */
export interface Steady {
  readonly low: number;
  readonly high: number;
  readonly vent: number;
  readonly returnTemperature: number;
  readonly returnHumidity: number;
  readonly outside: number;
  readonly speed: number;
}

const idle = { speed: 0, engineSpeed: 800 / 60, share: 0.45 };
const road = { speed: 20, engineSpeed: 1900 / 60, share: 0.85 };

const vehicle = (() => {
  const sized = sizedVehicle("midsize-expansion", harbourTruth.labelCharge);
  if (!sized) throw new RangeError("the label charge is within the preset's limits");
  const values = { ...sized.values };
  for (const [name, factor] of Object.entries(harbourTruth.vehicle)) {
    values[name as keyof typeof harbourTruth.vehicle] *= factor;
  }
  return { ...sized, values };
})();

/**
 * The invented vehicle with a charge in some weather.
 *
 * @throws RangeError when it would not run: the story is wrong then.
 */
export function steadyState(
  composition: Composition,
  charge: number,
  weather: Weather,
  where: "idle" | "road",
): Steady {
  const { speed, engineSpeed, share } = where === "idle" ? idle : road;
  const run = runVehicle({
    vehicle,
    conditions: {
      ...weather,
      pAir: harbourTruth.pAir,
      speed,
      engineSpeed,
      blower: 1,
      recirculation: 1,
      returnAir: { kind: "pull-down", share },
      occupants: 1,
    },
    fill: { composition, charge, air: 0 },
  });
  if (run.kind !== "running") throw new RangeError(`the invented vehicle is ${run.kind}`);
  const { T, humidityRatio } = run.returnAir;
  const moist = airFromHumidityRatio(T, humidityRatio, harbourTruth.pAir);
  if (moist.kind !== "air") throw new RangeError("the invented air is out of range");
  return {
    low: run.low,
    high: run.high,
    vent: run.vent,
    returnTemperature: T,
    returnHumidity: moist.relativeHumidity,
    outside: weather.ambient,
    speed,
  };
}

/**
 * Pressure of a closed space at rest, Pa absolute: liquid and vapour of a blend share it unevenly.
 *
 * @param density  kg/m3 of all that is inside.
 * @throws RangeError outside of the fluid's equations.
 */
export function pressureAtRest(
  { ids, fractions }: Composition,
  T: number,
  density: number,
): number {
  const parts = ids.map((fluid, i) => ({ fluid, fraction: fractions[i] ?? 0 }));
  const bulk = bulkAtTRho(materialOf(toMoles(parts)), T, density);
  if (bulk.kind !== "bulk") throw new RangeError(`nothing rests at ${T} K, ${density} kg/m3`);
  return bulk.p;
}
