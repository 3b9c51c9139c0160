import { restingPressure, type VehicleCase } from "../../vehicle/index.ts";
import type { Reader } from "./predict.ts";
import {
  type FaultReading,
  inner,
  innerWidth,
  placeOf,
  usualMetal,
  usualUncertainty,
} from "./quantities.ts";

/** Readings as numbers: their places in a vector of predictions, values and the noise between them. */
export interface Evidence {
  readonly picks: readonly number[];
  readonly y: readonly number[];
  /** Covariance of the instruments, k × k. */
  readonly noise: Float64Array;
  /** Standard uncertainty of each, the metal's temperature included. */
  readonly u: readonly number[];
}

/** Own share of a thermometer in a superheat or subcooling, at least, K. */
const leastThermometer = 0.3;

/**
 * Readings of one system at one time. A superheat is taken from the low gauge and a subcooling from the high one, so
 * the gauge's error is in both: their noise is correlated.
 */
export function evidenceOf(
  readings: readonly FaultReading[],
  healthy: VehicleCase,
  reader: Reader,
): Evidence {
  const k = readings.length;
  const noise = new Float64Array(k * k);
  const u = readings.map((reading) => uncertaintyIn(reading, healthy, reader));
  const widths = readings.map(({ quantity, value }, i) => innerWidth(quantity, value, u[i] ?? 0));
  for (const [i, one] of widths.entries()) noise[i * k + i] = one ** 2;
  const couple = (derived: FaultReading["quantity"], gauge: FaultReading["quantity"]): void => {
    const i = readings.findIndex(({ quantity }) => quantity === derived);
    const j = readings.findIndex(({ quantity }) => quantity === gauge);
    const [reading, uGauge] = [readings[j], u[j]];
    if (i < 0 || !reading || uGauge === undefined) return;
    const { label } = reader;
    const line = gauge === "low" ? label.dewT : label.bubbleT;
    const slope =
      (line(1.01 * reading.value) - line(0.99 * reading.value)) / (0.02 * reading.value);
    // Superheat falls with its gauge's error, subcooling rises.
    const shared = (gauge === "low" ? -slope : slope) * uGauge;
    noise[i * k + i] = Math.max(noise[i * k + i] ?? 0, shared ** 2 + leastThermometer ** 2);
    noise[i * k + j] = noise[j * k + i] = shared * (widths[j] ?? 0);
  };
  couple("superheat", "low");
  couple("subcooling", "high");
  return {
    picks: readings.map(({ quantity }) => placeOf(quantity)),
    y: readings.map(({ quantity, value }) => inner(quantity, value)),
    noise,
    u,
  };
}

function uncertaintyIn(reading: FaultReading, healthy: VehicleCase, reader: Reader): number {
  const own = reading.u ?? usualUncertainty[reading.quantity];
  if (reading.quantity !== "static") return own;
  return Math.hypot(own, slopeOfRest(healthy, reader) * (reading.uMetal ?? usualMetal));
}

/** Rise of the resting pressure with the metal's temperature, Pa/K. */
function slopeOfRest({ vehicle, fill, conditions }: VehicleCase, { metal }: Reader): number {
  const at = (T: number) => restingPressure(vehicle, fill, T, conditions.ambient);
  const [above, below] = [at(metal + 0.5), at(metal - 0.5)];
  return typeof above === "number" && typeof below === "number" ? above - below : 0;
}

/** Standard uncertainty of a reading that is not taken yet. */
export const uncertaintyToCome = (
  quantity: FaultReading["quantity"],
  healthy: VehicleCase,
  reader: Reader,
): number => uncertaintyIn({ quantity, value: 0 }, healthy, reader);
