import type { Substance } from "../events.ts";
import type { InstrumentView, ProductView, VehicleView, VesselView } from "../view.ts";
import { type Form, input } from "./form.ts";
import { scaleUncertainty } from "./scales.ts";
import { type AccountId, type ContentBasis, type SubstanceKey, vehicleAccount } from "./view.ts";

/** Contents of an account before the first posting. */
export interface Opening {
  readonly account: AccountId;
  readonly basis: ContentBasis;
  readonly substance: SubstanceKey;
  readonly mass: Form;
}

/**
 * Limits of error of declarations, as parts of what is declared; rectangular. They are choices:
 * - vehicle: a vehicle of unknown history may have lost years of some 50 g a year (European fleet
 *   average reported by Schwarz & Harnisch 2003, figures from memory) or been filled by guess;
 * - package: about the tolerable negative error of a 200–300 g prepackage, 9 g
 *   (Directive 76/211/EEC annex I, from memory).
 */
export const declaredLimits = { vehicle: 0.3, package: 0.045 } as const;

export const substanceKey = (substance: Substance): SubstanceKey =>
  substance.kind === "fluid" ? `fluid:${substance.fluid}` : `product:${substance.product}`;

/** How people read a substance. */
export function substanceName(key: SubstanceKey, products: readonly ProductView[]): string {
  if (key.startsWith("fluid:")) return key.slice("fluid:".length);
  if (!key.startsWith("product:")) return "unknown";
  const id = key.slice("product:".length);
  return products.find((product) => product.id === id)?.name ?? "a product not listed";
}

const declared = (name: string, mass: number, part: number): Form =>
  input(name, mass, (part * mass) / Math.sqrt(3));

/** Everything that is inside something when the trial begins. */
export function openings(
  vehicle: VehicleView | undefined,
  vessels: readonly VesselView[],
  instruments: readonly InstrumentView[],
): readonly Opening[] {
  const all: Opening[] = [];
  if (vehicle) {
    all.push({
      account: vehicleAccount,
      basis: "declared",
      substance: `fluid:${vehicle.labelRefrigerant}`,
      mass: declared(`${vehicle.entry}:label`, vehicle.labelCharge, declaredLimits.vehicle),
    });
  }
  for (const { id, holds } of vessels) {
    if (!holds) continue;
    // A net mass is a gross reading less a tare: two readings of the scale.
    const { u } = scaleUncertainty(instruments, holds.instrument, holds.mass);
    all.push({
      account: id,
      basis: holds.basis,
      substance: substanceKey(holds.substance),
      mass:
        holds.basis === "weighed"
          ? input(`${id}:holds`, holds.mass, Math.SQRT2 * u)
          : declared(`${id}:holds`, holds.mass, declaredLimits.package),
    });
  }
  return all;
}
