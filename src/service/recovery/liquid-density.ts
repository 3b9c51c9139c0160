import { saturationAtT } from "../../fluids/index.ts";
import { findRoot } from "../../numerics/index.ts";
import { blendBubble, blendDew } from "../bulk/blend-states.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";

/** A boiling liquid, or the vapour over it: Pa and kg/m3. */
export interface Boiling {
  readonly kind: "boiling";
  readonly p: number;
  readonly rho: number;
}

/** The pure fluid's saturated phases, kg/m3. */
function pureSaturation(
  material: Material & { kind: "pure" },
  T: number,
): BulkFailure | { readonly kind: "pair"; p: number; liquid: number; vapour: number } {
  const { fluid, M } = material;
  const sat = saturationAtT(fluid, T);
  if (sat.kind === "saturated") {
    return { kind: "pair", p: sat.p, liquid: sat.rhoL * M, vapour: sat.rhoV * M };
  }
  const reason = T > sat.to ? "supercritical" : "below-minimum";
  return {
    kind: "failed",
    reason,
    quantity: "T",
    numbers: { value: T, from: sat.from, to: sat.to },
  };
}

/**
 * Liquid at its bubble point, which fills a vessel but for a little vapour.
 *
 * @param T K.
 * @throws  RangeError for a number that is not finite: the caller's bug.
 */
export function boilingLiquid(material: Material, T: number): Boiling | BulkFailure {
  if (material.kind === "pure") {
    const pair = pureSaturation(material, T);
    return pair.kind === "failed" ? pair : { kind: "boiling", p: pair.p, rho: pair.liquid };
  }
  const bulk = blendBubble(material, "T", T);
  if (bulk.kind === "failed") return bulk;
  const { p, phases, rho } = bulk;
  return { kind: "boiling", p, rho: phases.find(({ kind }) => kind === "liquid")?.rho ?? rho };
}

/** Vapour at its dew point: the most that a volume holds without a drop of liquid. */
export function dewVapour(material: Material, T: number): Boiling | BulkFailure {
  if (material.kind === "pure") {
    const pair = pureSaturation(material, T);
    return pair.kind === "failed" ? pair : { kind: "boiling", p: pair.p, rho: pair.vapour };
  }
  const bulk = blendDew(material, "T", T);
  if (bulk.kind === "failed") return bulk;
  const { p, phases, rho } = bulk;
  return { kind: "boiling", p, rho: phases.find(({ kind }) => kind === "vapour")?.rho ?? rho };
}

/** Where the search begins, its first step and its last, K: the last few kelvin below a critical point are steep. */
const START = 298.15;
const STEP = 8;
const LAST_STEP = 0.1;
/** Of a temperature; finer than any thermometer. */
const FINE = 1e-4;

/**
 * Temperature at which a mass fills its vessel with liquid: expanding liquid has no room beyond it.
 *
 * @param rho Mass per volume of the vessel, kg/m3.
 * @returns   K; undefined when the mass is so small that liquid boils away before it fills the vessel, or so large that
 *            no liquid is as dense within the equation's range.
 */
export function liquidFullTemperature(material: Material, rho: number): number | undefined {
  const excess = (T: number): number | undefined => {
    const liquid = boilingLiquid(material, T);
    return liquid.kind === "failed" ? undefined : liquid.rho - rho;
  };
  const first = excess(START);
  if (first === undefined) return undefined;
  const way = first < 0 ? -1 : 1;
  let near = START;
  let step = STEP;
  while (step >= LAST_STEP) {
    const far = near + way * step;
    const off = excess(far);
    if (off === undefined) step /= 2;
    else if (off * way <= 0) {
      const f = (T: number): number => excess(T) ?? Infinity;
      const root = findRoot(f, near, far, { absoluteWidth: FINE });
      return root.kind === "root" ? root.x : undefined;
    } else near = far;
  }
  return undefined;
}

/**
 * Relative standard uncertainty of a liquid's density: publications state 0.05 to 0.5 % for pure fluids; blends have
 * no measured densities of their own here (common practice, no source).
 */
export function densityDoubt(material: Material): number {
  if (material.kind === "pure") return 0.002;
  return material.mix.estimates.length === 0 ? 0.005 : 0.02;
}
