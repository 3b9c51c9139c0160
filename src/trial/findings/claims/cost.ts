import { referenceCycle } from "../../../service/index.ts";
import { given } from "../../given.ts";
import { chargedMass } from "../charged-mass.ts";
import type { ProductView, TrialView } from "../../view.ts";
import { knownSubstance } from "./known-substance.ts";
import { readPrice } from "./price.ts";
import { testedOtherwise } from "./sample-tests.ts";

/** What a full charge costs, and what for. */
export interface ChargeCost {
  /** As the text of the price names it. */
  readonly currency: string;
  readonly perCan: number;
  /** Mass of a full charge, kg: as charged in this trial. */
  readonly charge?: number;
  readonly cans?: number;
  readonly perCharge?: number;
  /** Cooling of the product's loop over that of the label refrigerant, at one displacement and fixed temperatures. */
  readonly relativeCooling?: number;
  /** Cost of a charge for as much cooling as the label refrigerant gives. */
  readonly perCooling?: number;
}

/**
 * Cost of a full charge; `undefined` where the price cannot be read as one amount of one currency.
 *
 * Delivered cooling was not measured, so cost for cooling rests on a loop of the declared fluid at fixed temperatures.
 */
export function chargeCost(view: TrialView, product: ProductView): ChargeCost | undefined {
  const price = readPrice(product.price);
  if (!price) return undefined;
  const charge = chargedMass(view, product.id)?.value;
  const { labelMass } = product;
  const cans = charge !== undefined && labelMass !== undefined ? charge / labelMass : undefined;
  const perCharge = cans === undefined ? undefined : cans * price.amount;
  // What a test speaks against is no ground for a figure.
  const mine = testedOtherwise(view, product) ? undefined : knownSubstance(product.fluid);
  const theirs = knownSubstance(view.vehicle?.labelRefrigerant);
  const [loop, other] = [mine, theirs].map((one) => one && referenceCycle(one.material));
  const relativeCooling = loop && other ? loop.volumetric / other.volumetric : undefined;
  return given({
    currency: price.currency,
    perCan: price.amount,
    charge,
    cans,
    perCharge,
    relativeCooling,
    perCooling:
      perCharge === undefined || relativeCooling === undefined
        ? undefined
        : perCharge / relativeCooling,
  });
}
