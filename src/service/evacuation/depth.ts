import { type OutOfRange, waterSaturation } from "../../air/index.ts";
import { VACUUM_TARGETS } from "../vacuum.ts";

export interface Depth {
  readonly kind: "depth";
  /** Water boils below this at the coldest metal, Pa absolute. */
  readonly boiling: number;
  /** Practice's targets, Pa absolute. */
  readonly deep: number;
  readonly acceptable: number;
  /** What a gauge that counts from the local air shows there, Pa below it; and with a perfect pump. */
  readonly reading: {
    readonly deep: number;
    readonly acceptable: number;
    readonly boiling: number;
    readonly deepest: number;
  };
  /** Least reading to settle for when only such a gauge is there, Pa below the local air. */
  readonly gaugeOnly: number;
  /** Whether ice would still stand at 500 micron: the metal is to be warmed first. */
  readonly warmFirst: boolean;
}

/** 29.2 of 29.92 inHg (common practice, no source). */
const GAUGE_ONLY = 29.2 / 29.92;

/**
 * How deep a vacuum has to be here.
 *
 * @param T   Temperature of the coldest metal, K.
 * @param air Local air, Pa.
 */
export function depthNeeded(T: number, air: number): Depth | OutOfRange {
  const water = waterSaturation(T);
  if (water.kind === "out-of-range") return water;
  const { deep, acceptable } = VACUUM_TARGETS;
  return {
    kind: "depth",
    boiling: water.p,
    deep,
    acceptable,
    reading: {
      deep: air - deep,
      acceptable: air - acceptable,
      boiling: air - water.p,
      deepest: air,
    },
    gaugeOnly: GAUGE_ONLY * air,
    warmFirst: water.p < 2 * deep,
  };
}

/** Share of the first air that n pulls leave, each broken with dry gas at the local air: (p/air)ⁿ. */
export const airLeft = (p: number, air: number, pulls: number): number => (p / air) ** pulls;
