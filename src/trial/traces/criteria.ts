import type { ReadingQuantity } from "../events.ts";
import { given } from "../given.ts";
import type { SettleOptions } from "./settle.ts";

/**
 * Slopes up to which a quantity counts as settled, SI per second. Vent 0.1 K/min and head 0.05 bar/min
 * over the last five minutes are common practice, no source; the other temperatures and the low side
 * take the same figures (a choice).
 */
const slopeLimits: Readonly<Partial<Record<ReadingQuantity, number>>> = {
  "vent-temperature": 0.1 / 60,
  "return-air-temperature": 0.1 / 60,
  "outside-temperature": 0.1 / 60,
  "high-side": 5e3 / 60,
  "low-side": 5e3 / 60,
};

const mayCycle: ReadonlySet<ReadingQuantity> = new Set([
  "low-side",
  "high-side",
  "vent-temperature",
]);

/** When a quantity counts as settled, and whether it may swing with a clutch. */
export const settleOptions = (quantity: ReadingQuantity): SettleOptions =>
  given({ slopeLimit: slopeLimits[quantity], mayCycle: mayCycle.has(quantity) });
