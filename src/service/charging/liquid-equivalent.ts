import { bulkAtTRho } from "../bulk/bulk.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";
import { boilingLiquid, densityDoubt, dewVapour } from "../recovery/liquid-density.ts";

/** Two refrigerants and the charge of the first, kg, at a temperature, K. */
export interface EqualVolume {
  readonly label: Material;
  readonly charge: number;
  readonly product: Material;
  readonly T: number;
}

/** A mass of the product, kg, and what it is of the label charge; `u` from the densities alone. */
export interface EqualMass {
  readonly kind: "mass";
  readonly mass: number;
  readonly u: number;
  readonly ratio: number;
}

/**
 * The mass of a product whose liquid fills the same volume as the label charge's liquid: what "equal ounces" claims
 * rest on. It says nothing of capacity or energy.
 *
 * @throws RangeError for numbers that are not finite: the caller's bug.
 * Source: ratio of saturated liquid densities, from the fluids' equations
 * Checked: test/published/charging.test.ts
 */
export function equalLiquidVolume({
  label,
  charge,
  product,
  T,
}: EqualVolume): EqualMass | BulkFailure {
  const a = boilingLiquid(label, T);
  if (a.kind === "failed") return a;
  const b = boilingLiquid(product, T);
  if (b.kind === "failed") return b;
  const ratio = b.rho / a.rho;
  const mass = ratio * charge;
  const u = mass * Math.hypot(densityDoubt(label), densityDoubt(product));
  return { kind: "mass", mass, u, ratio };
}

/** What a resting system holds: kg, and the liquid's part of its volume. */
export interface EqualFill extends EqualMass {
  readonly liquidShare: number;
}

/**
 * The mass of a product that fills the same part of the internal volume with liquid at rest, its vapour counted.
 *
 * @param volume Internal volume of the system, m3.
 * @returns the mass; a label charge that is all vapour or all liquid at this temperature has no such level, and its
 *          density is carried over in the ratio of the saturated vapours or liquids.
 * Limits: one temperature throughout, nothing dissolved in oil.
 * Source: m = V (λ ρL + (1 − λ) ρV), λ from the label charge
 * Checked: charging.property.test.ts
 */
export function equalLevel(
  { label, charge, product, T }: EqualVolume,
  volume: number,
): EqualFill | BulkFailure {
  const inside = bulkAtTRho(label, T, charge / volume);
  if (inside.kind === "failed") return inside;
  const liquidShare = inside.phases.find(({ kind }) => kind === "liquid")?.volumeShare ?? 0;
  const liquid = boilingLiquid(product, T);
  if (liquid.kind === "failed") return liquid;
  const vapour = dewVapour(product, T);
  if (vapour.kind === "failed") return vapour;
  const thin = liquidShare === 0 ? vapourShare(label, T, charge / volume) : 1;
  const rho = liquidShare * liquid.rho + (1 - liquidShare) * vapour.rho * thin;
  const mass = volume * rho;
  const u = mass * Math.hypot(densityDoubt(label), densityDoubt(product));
  return { kind: "mass", mass, u, ratio: mass / charge, liquidShare };
}

/** A vapour's density as part of the saturated one. */
function vapourShare(material: Material, T: number, rho: number): number {
  const dew = dewVapour(material, T);
  return dew.kind === "failed" ? 1 : Math.min(1, rho / dew.rho);
}
