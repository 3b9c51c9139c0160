import { quantity } from "./field.ts";
import { TEMPERATURES } from "./saturation.ts";

/** A closed vessel and what it holds. */
export const vesselFields = {
  volume: quantity("volume", "Internal volume of the vessel or system", { from: 1e-9, to: 1e3 }),
  mass: quantity("mass", "Mass of the fluid or blend inside", { from: 1e-12, to: 1e6 }),
  T: quantity("temperature", "Temperature of all of it", TEMPERATURES),
} as const;

/** Liquid share by volume beyond which a vessel must not be filled: 49 CFR 173.304(b) and trade rules say 80 %. */
export const FULLEST = 0.8;
