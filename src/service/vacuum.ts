import { type OutOfRange, waterBoiling, waterSaturation } from "../air/index.ts";
import { COVERAGE } from "./accuracy.ts";
import type { LocalAir } from "./local-air.ts";

/** Depths that practice aims at, Pa: 500 micron, and 1000 micron as still good for a vehicle (common practice, no source). */
export const VACUUM_TARGETS = { deep: 500 * 0.133322387415, acceptable: 1000 * 0.133322387415 };

/** Deepest a perfect pump could pull at all: below it the reading or the air is wrong. */
export type VacuumVerdict =
  "water-boils" | "not-deep-enough" | "gauge-cannot-tell" | "deeper-than-possible";

export type DepthVerdict = "reached" | "not-reached" | "gauge-cannot-tell";

export interface VacuumCheck {
  readonly kind: "checked";
  readonly verdict: VacuumVerdict;
  /** Absolute pressure of the reading, Pa; below zero when the reading is deeper than the air allows. */
  readonly p: number;
  /** Standard uncertainty of `p`, Pa: instrument, and local air where the reading counts from it. */
  readonly u: number;
  /** 95 % interval of `p`, Pa, cut at zero. */
  readonly interval: { readonly from: number; readonly to: number };
  /** Pressure at which water boils at the temperature of the coldest metal, Pa. */
  readonly boilingPressure: number;
  /** Temperature at which water boils or ice sublimes at `p`, K; absent when `p` is out of the equations' range. */
  readonly boilingTemperature: number | undefined;
  /** The same for the upper end of the interval: as warm as the coldest wet spot may have to be. */
  readonly boilingTemperatureAtWorst: number | undefined;
  /** Vacuum below the local air that a perfect pump would show, Pa. */
  readonly deepestReading: number;
  readonly depth: { readonly deep: DepthVerdict; readonly acceptable: DepthVerdict };
}

const boilingAt = (p: number): number | undefined => {
  const boiling = p > 0 ? waterBoiling(p) : undefined;
  return boiling?.kind === "temperature" ? boiling.T : undefined;
};

/** Is the pressure below a threshold, above it, or does the interval hold both? */
function against(threshold: number, from: number, to: number): DepthVerdict {
  if (to <= threshold) return "reached";
  return from > threshold ? "not-reached" : "gauge-cannot-tell";
}

function verdictOf(boilingPressure: number, from: number, to: number): VacuumVerdict {
  if (to < 0) return "deeper-than-possible";
  const verdict = against(boilingPressure, from, to);
  if (verdict === "reached") return "water-boils";
  return verdict === "not-reached" ? "not-deep-enough" : verdict;
}

/**
 * A vacuum reading against the pressure at which water boils at the temperature of the metal.
 *
 * @param p         Absolute pressure of the reading, Pa.
 * @param uReading  Standard uncertainty of the instrument, Pa.
 * @param reference What the instrument counts from: a Bourdon gauge from the air, a micron gauge from zero.
 * @param T         Temperature of the coldest metal (shop temperature when nothing better is known), K.
 * @param air       Local air.
 * @returns the check, or the range of temperature that water has an answer for.
 * Limits: pressure at the place of the gauge; the far side of a system stands higher while the pump runs.
 */
export function vacuumCheck(reading: {
  readonly p: number;
  readonly uReading: number;
  readonly reference: "air" | "absolute";
  readonly T: number;
  readonly air: LocalAir;
}): VacuumCheck | OutOfRange {
  const { p, air } = reading;
  const water = waterSaturation(reading.T);
  if (water.kind === "out-of-range") return water;
  const u = reading.reference === "air" ? Math.hypot(reading.uReading, air.u) : reading.uReading;
  const from = p - COVERAGE * u;
  const to = p + COVERAGE * u;
  return {
    kind: "checked",
    verdict: verdictOf(water.p, from, to),
    p,
    u,
    interval: { from: Math.max(0, from), to: Math.max(0, to) },
    boilingPressure: water.p,
    boilingTemperature: boilingAt(p),
    boilingTemperatureAtWorst: boilingAt(to),
    deepestReading: air.p,
    depth: {
      deep: against(VACUUM_TARGETS.deep, from, to),
      acceptable: against(VACUUM_TARGETS.acceptable, from, to),
    },
  };
}
