import { bulkAtTRho } from "../bulk/bulk.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";
import { dewVapour } from "../recovery/liquid-density.ts";

/** A resting system that has taken some mass: kg, Pa absolute, liquid's part of the mass. */
export interface RestPoint {
  readonly mass: number;
  readonly p: number;
  readonly liquidFraction: number;
}

export interface RestSeries {
  readonly kind: "series";
  /** From a first sip on: smallest mass first. */
  readonly points: readonly RestPoint[];
  /** Mass that shows the pressure of liquid without a drop of it, kg. */
  readonly firstLiquid: number;
}

/**
 * What a gauge shows on a resting system while mass goes in: it stops rising long before the charge is in.
 *
 * @param T      K. @param volume Internal volume, m3. @param most Last mass, kg. @param steps Points, at least 2.
 * Limits: all at one temperature; nothing dissolved in oil.
 * Source: V ρV,sat for the first liquid; the fluid's equation for the rest
 * Checked: test/published/charging.test.ts
 */
export function restSeries(
  material: Material,
  { T, volume, most, steps }: { T: number; volume: number; most: number; steps: number },
): RestSeries | BulkFailure {
  const dew = dewVapour(material, T);
  if (dew.kind === "failed") return dew;
  const firstLiquid = volume * dew.rho;
  const even = Array.from({ length: steps }, (_, k) => (most * (k + 1)) / steps);
  const masses = firstLiquid < most ? [...even, firstLiquid].sort((a, b) => a - b) : even;
  const points: RestPoint[] = [];
  for (const mass of masses) {
    const bulk = bulkAtTRho(material, T, mass / volume);
    if (bulk.kind === "failed") return bulk;
    const liquid = bulk.phases.find(({ kind }) => kind === "liquid");
    points.push({ mass, p: bulk.p, liquidFraction: liquid?.share ?? 0 });
  }
  return { kind: "series", points, firstLiquid };
}
