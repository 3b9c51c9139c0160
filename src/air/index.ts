// Moist air, the standard atmosphere, and water's boiling: what stands around a vehicle and what must leave it.
// Must never know: refrigerants, vehicles, readings. Basis: SI; moist air per kg of dry air.
export { altitudeAt, SEA_LEVEL_PRESSURE, standardPressure } from "./atmosphere.ts";
export {
  airFromDewPoint,
  airFromHumidityRatio,
  airFromRelativeHumidity,
  airFromWetBulb,
  type MoistAir,
  type MoistAirOutcome,
} from "./moist-air.ts";
export type { OutOfRange } from "./outcome.ts";
export { TRIPLE_POINT, waterBoiling, waterSaturation } from "./water.ts";
