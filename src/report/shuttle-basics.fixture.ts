import type { Measured } from "../trial/index.ts";

/** Numbers and names of the invented trial for the tests of pictures and report: made by hand, nothing in it was measured. */

export const C = 273.15;
export const psi = 6894.757293168361;
export const air = 93_870;
export const m = (value: number, u: number): Measured => ({ value, u });
export const uuid = (n: number): string => `018f0000-0000-7000-8000-${String(n).padStart(12, "0")}`;
export const at = (minute: number, day = 14): string =>
  `2026-06-${day}T${String(7 + Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}:00Z`;

export const ids = {
  gauge: uuid(1),
  scale: uuid(2),
  thermometer: uuid(3),
  vacuumGauge: uuid(4),
  product: uuid(5),
  cylinder: uuid(6),
  can: uuid(7),
  secondCan: uuid(8),
  spare: uuid(9),
  trace: uuid(20),
  hold: uuid(21),
  parked: uuid(30),
  road: uuid(31),
  parkedB: uuid(32),
} as const;
