import type { Random } from "./random.ts";

/** A standard normal number from two uniform ones. Source: Box & Muller 1958. */
export const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
