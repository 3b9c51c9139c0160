import type { EntryType } from "../../trial/index.ts";
import type { FieldSpec } from "../forms/spec.ts";
import { instrumentSpecs } from "./instrument-specs.ts";
import { openingSpecs, productSpecs, vehicleSpecs } from "./trial-specs.ts";
import { vesselSpecs } from "./vessel-specs.ts";

/** The things a set-up lists, by the word in their place. */
export interface Kind {
  readonly type: EntryType;
  readonly specs: readonly FieldSpec[];
  readonly heading: string;
  readonly saveLabel: string;
}

export const kinds: Readonly<Record<string, Kind>> = {
  question: {
    type: "trial-opened",
    specs: openingSpecs,
    heading: "The question and the place",
    saveLabel: "Save the question",
  },
  vehicle: {
    type: "vehicle-described",
    specs: vehicleSpecs,
    heading: "The vehicle",
    saveLabel: "Save the vehicle",
  },
  instrument: {
    type: "instrument-listed",
    specs: instrumentSpecs,
    heading: "An instrument",
    saveLabel: "List the instrument",
  },
  product: {
    type: "product-listed",
    specs: productSpecs,
    heading: "A product",
    saveLabel: "List the product",
  },
  vessel: {
    type: "vessel-listed",
    specs: vesselSpecs,
    heading: "A vessel",
    saveLabel: "List the vessel",
  },
};
