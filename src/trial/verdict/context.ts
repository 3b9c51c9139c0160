import { blendInfo, isFluidId } from "../../fluids/index.ts";
import { unitById, toSI } from "../../units/index.ts";
import { type Composition, pureComposition } from "../../vehicle/index.ts";
import type { ReadingQuantity } from "../events.ts";
import { instrumentUncertainty } from "../instruments.ts";
import type { Measured } from "../measured.ts";
import type { ReadingView, TrialView } from "../view.ts";
import type { ReadingInContext } from "./view.ts";

/** The reading in SI; `u` is absent while no instrument is named, because nothing else states its error. */
export function measure(
  view: TrialView,
  reading: ReadingInContext,
): { readonly value: number; readonly u?: number } {
  const value = toSI(reading.typed, view.atmosphere.value);
  if (reading.u !== undefined) return { value, u: reading.u };
  const instrument = view.instruments.find(({ id }) => id === reading.instrument);
  if (!instrument) return { value };
  return { value, u: instrumentUncertainty(instrument, value, view.atmosphere.value) };
}

/** What the pressure was read from: the air around the gauge, or vacuum zero. */
export const referenceOf = (reading: ReadingInContext): "air" | "absolute" =>
  unitById(reading.typed.unit).reference === "absolute" ? "absolute" : "air";

/**
 * The companion reading nearest in time among those of the same stage and round; those of the same run
 * come first. While a reading is being typed, the latest one.
 */
export function companion(
  view: TrialView,
  reading: ReadingInContext,
  quantity: ReadingQuantity,
): ReadingView | undefined {
  const there = view.readings.filter(
    (other) =>
      other.quantity === quantity && other.stage === reading.stage && other.round === reading.round,
  );
  const ofRun = there.filter(({ run }) => reading.run !== undefined && run === reading.run);
  const candidates = ofRun.length > 0 ? ofRun : there;
  const moment = reading.when === undefined ? Infinity : Date.parse(reading.when);
  const distance = ({ when }: ReadingView): number =>
    moment === Infinity ? -Date.parse(when) : Math.abs(Date.parse(when) - moment);
  return candidates.reduce<ReadingView | undefined>(
    (best, other) => (best && distance(best) <= distance(other) ? best : other),
    undefined,
  );
}

/** A reading's value with its uncertainty; without an instrument its error is not known, so it counts as none. */
export const asMeasured = ({ value, u }: Pick<ReadingView, "value" | "u">): Measured => ({
  value,
  u: u ?? 0,
});

/** What should be in the vehicle at this point of the walk. */
export interface Expected {
  /** Fluid id, when it is a pure fluid that can be computed. */
  readonly fluid?: string;
  /** Name of the blend, when it is a named one. */
  readonly blend?: string;
  /** Either of them by mass. */
  readonly composition?: Composition;
  readonly name: string;
}

/** Prove and Restore belong to the label refrigerant; a round's Charge and Run to its product; Recover to what was in before. */
export function expectedFluid(view: TrialView, reading: ReadingInContext): Expected | undefined {
  const charged = view.runs.find(({ id }) => id === reading.run)?.charged;
  if (charged?.kind === "fluid") return named(charged.fluid);
  if (charged) return ofProduct(view, charged.product);
  switch (reading.stage) {
    case "charge":
    case "run":
    case "identify":
      return reading.round === undefined ? undefined : ofProduct(view, reading.round);
    case "recover": {
      const place = view.products.findIndex(({ id }) => id === reading.round);
      const before = place > 0 ? view.products[place - 1] : undefined;
      return before ? ofProduct(view, before.id) : label(view);
    }
    case "prove":
    case "restore":
      return label(view);
    case "plan":
    case "evacuate":
    case "compare":
    case "hazards":
    case "claims":
    case "publish":
      return undefined;
  }
}

/** Why no refrigerant is expected: what has to be written down first, or that the stage has none. */
export function nothingExpected(
  { vehicle }: TrialView,
  { stage }: ReadingInContext,
): readonly [word: string, sentence: string] {
  if (stage === "charge" || stage === "run") {
    return [
      "needs the product",
      "List the product first: what it declares is what this reading is compared with.",
    ];
  }
  return vehicle
    ? ["nothing to compare", "No refrigerant is expected in the vehicle at this stage."]
    : [
        "needs the vehicle",
        "Describe the vehicle first: its label names the refrigerant to compare with.",
      ];
}

function named(text: string): Expected {
  if (isFluidId(text)) return { fluid: text, composition: pureComposition(text), name: text };
  const blend = blendInfo(text);
  if (!blend) return { name: text };
  const composition = {
    ids: blend.shares.map(({ fluid }) => fluid),
    fractions: blend.shares.map(({ mass }) => mass),
  };
  return { blend: blend.name, composition, name: blend.name };
}

const label = ({ vehicle }: TrialView): Expected | undefined =>
  vehicle && named(vehicle.labelRefrigerant);

function ofProduct(view: TrialView, id: string): Expected | undefined {
  const product = view.products.find((each) => each.id === id);
  if (!product) return undefined;
  const { fluid, name } = product;
  const declared = fluid === undefined ? undefined : named(fluid);
  return declared?.composition ? { ...declared, name: `${name} (${declared.name})` } : { name };
}
