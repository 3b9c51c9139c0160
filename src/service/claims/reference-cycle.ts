import { findRoot } from "../../numerics/index.ts";
import { bulkAtTP } from "../bulk/bulk.ts";
import { caloricState } from "../bulk/caloric.ts";
import type { Material } from "../bulk/material.ts";
import { saturatedEnds } from "../bulk/saturated.ts";

/** A simple loop at fixed temperatures: what the fluid itself brings along, in no particular vehicle. */
export interface ReferenceCycle {
  /** Evaporating and condensing pressure, Pa. */
  readonly low: number;
  readonly high: number;
  /** K */
  readonly discharge: number;
  readonly cop: number;
  /** Cooling by volume drawn in, J/m3. */
  readonly volumetric: number;
  /** Bubble to dew at the evaporating pressure, K. */
  readonly glide: number;
}

/** Evaporating 5 °C, condensing 50 °C, superheat 10 K, subcooling 5 K, isentropic efficiency 0.65. */
const LOOP = { evaporating: 278.15, condensing: 323.15, superheat: 10, subcooling: 5, eta: 0.65 };

/** Pressure at which the mean of bubble and dew temperature stands at T, with both ends. */
function atMean(material: Material, T: number) {
  const ends = (p: number) => saturatedEnds(material, "p", p);
  const from = saturatedEnds(material, "T", T);
  if (!from || material.kind === "pure") return from;
  // The bubble pressure at T is too high: at it the dew point lies above T.
  const off = (logP: number): number => {
    const found = ends(Math.exp(logP));
    return found ? (found.bubble.T + found.dew.T) / 2 - T : Infinity;
  };
  const top = Math.log(from.bubble.p);
  const root = findRoot(off, top - 1, top + 1e-6, { absoluteWidth: 1e-9 });
  return root.kind === "root" ? ends(Math.exp(root.x)) : undefined;
}

/**
 * The loop of a material; `undefined` where it has no such states, as near a critical point.
 *
 * Limits: blends with glide at the mean of bubble and dew temperature, which flatters them; no pressure is lost.
 * Checked: claims-physics.test.ts
 */
export function referenceCycle(material: Material): ReferenceCycle | undefined {
  const [cold, warm] = [LOOP.evaporating, LOOP.condensing].map((T) => atMean(material, T));
  if (!cold || !warm) return undefined;
  const [low, high] = [cold.dew.p, warm.bubble.p];
  const suction = bulkAtTP(material, cold.dew.T + LOOP.superheat, low);
  const liquid = bulkAtTP(material, warm.bubble.T - LOOP.subcooling, high);
  if (suction.kind === "failed" || liquid.kind === "failed") return undefined;
  const ideal = caloricState(material, high, "s", suction.s);
  if (!ideal) return undefined;
  const work = (ideal.h - suction.h) / LOOP.eta;
  const discharge = caloricState(material, high, "h", suction.h + work);
  const cooling = suction.h - liquid.h;
  return (
    discharge && {
      low,
      high,
      discharge: discharge.T,
      cop: cooling / work,
      volumetric: cooling * suction.rho,
      glide: cold.dew.T - cold.bubble.T,
    }
  );
}
