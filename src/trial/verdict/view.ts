import type { Quantity } from "../../units/index.ts";
import type { ReadingForm, ReadingQuantity, Stage } from "../events.ts";
import type { Measured } from "../measured.ts";

/** A reading that is typed or logged and wants a verdict. */
export interface ReadingInContext {
  readonly quantity: ReadingQuantity;
  readonly form: ReadingForm;
  readonly typed: Quantity;
  readonly instrument?: string;
  readonly stage: Stage;
  readonly round?: string;
  readonly run?: string;
  /** Vessel on the scale, for a gross mass. */
  readonly vessel?: string;
  /** Standard uncertainty, SI, where more than the instrument's class is known: a value settled from a trace. */
  readonly u?: number;
  /** When it was read, ISO 8601; absent while it is being typed. */
  readonly when?: string;
}

/** One line of what stands behind a verdict, with where it comes from. */
export interface VerdictDetail {
  readonly heading: string;
  readonly text: string;
  readonly source: string;
}

/** The reading against its band. SI inside: the door shows it in the unit that was typed. */
export interface Verdict {
  readonly kind: "within" | "higher" | "lower" | "undecided";
  /** A word or two, shown beside the verdict's shape. */
  readonly word: string;
  readonly sentence: string;
  /** The reading with the standard uncertainty of its instrument. */
  readonly reading: Measured;
  /** 95 % interval in which it should fall; absent when nothing here can give one. */
  readonly band?: { readonly from: number; readonly to: number; readonly expected?: number };
  /** What the band rests on, for instance the saturation of the label refrigerant at the metal's temperature. */
  readonly basis: string;
  readonly details: readonly VerdictDetail[];
  readonly sources: readonly string[];
}
