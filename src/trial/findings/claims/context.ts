import type { Material, NamedBlend, Part } from "../../../service/index.ts";
import type { RunView } from "../../view.ts";
import type { ClaimReading } from "./kinds.ts";

/** What stands behind a verdict, and what it is: a reading of this trial, physics, or the label itself. */
export interface ClaimEvidence {
  readonly from: "trial" | "physics" | "label";
  readonly text: string;
  readonly source?: string;
}

/** How a sentence of a label stands. */
export interface ClaimVerdict {
  /** The sentence as it is tested. */
  readonly statement: string;
  readonly verdict: "supported" | "contradicted" | "undecided";
  /** Why, in one sentence. */
  readonly because: string;
  readonly evidence: readonly ClaimEvidence[];
  readonly method: string;
  /** Of an undecided one: what would decide it. */
  readonly wouldDecide?: string;
}

/** A refrigerant whose composition is known, as far as anyone says. */
export interface KnownSubstance {
  readonly name: string;
  readonly moles: readonly Part[];
  readonly mass: readonly Part[];
  readonly named: NamedBlend | undefined;
  readonly material: Material;
}

/** Difference that a product makes to a reading, product minus label refrigerant. SI. */
export interface ClaimEffect {
  readonly quantity: "vent-temperature" | "low-side" | "high-side";
  readonly condition: RunView["condition"];
  /** Carried to equal conditions, or as read with what was not equal. */
  readonly basis: "equal-conditions" | "as-measured";
  readonly effect: number;
  /** 95 % interval. */
  readonly lower: number;
  readonly upper: number;
  /** Of what is as measured: conditions that were not equal or not known, in words; none if all were equal. */
  readonly unequal?: string;
}

/** What was weighed out of a product's cans. kg */
export interface WeighedCan {
  readonly name: string;
  readonly delivered: number;
  readonly u: number;
  /** Nothing but vapour is left in it. */
  readonly emptied: boolean;
  /** The most that an emptied can keeps. */
  readonly residue: number;
}

/** What identifiers and detectors said about the product. */
export interface SampleTest {
  readonly method: "identifier" | "combustible-gas-detector" | "halogen-detector";
  readonly responded?: boolean;
  /** % by mass by name. */
  readonly parts?: readonly { readonly substance: string; readonly percent: number }[];
}

/** Everything that may speak for or against a claim. */
export interface ClaimContext {
  readonly product: {
    readonly name: string;
    readonly substance: KnownSubstance | undefined;
    /** Who says what it is: whoever asks, an identifier, or nobody but the label. */
    readonly identity: "given" | "identified" | "declared" | "unknown";
    readonly labelMass: number | undefined;
    readonly flammableMark: boolean;
  };
  /** The vehicle's label refrigerant. */
  readonly reference: KnownSubstance | undefined;
  readonly effects: readonly ClaimEffect[];
  readonly cans: readonly WeighedCan[];
  readonly tests: readonly SampleTest[];
  /** A refrigerant by the name that a claim uses. */
  readonly find: (name: string) => KnownSubstance | undefined;
}

export type ClaimJudge = (claim: ClaimReading, context: ClaimContext) => ClaimVerdict;

/** What is in the can is settled, not only said. */
export const isKnown = ({ identity }: ClaimContext["product"]): boolean =>
  identity === "given" || identity === "identified";

/** Grams in a sentence. */
export function grams(kg: number): string {
  const digits = Math.abs(kg) < 0.01 ? 2 : 3;
  return `${(1e3 * kg).toPrecision(digits).replace(/\.0+$/u, "")} g`;
}

export const IDENTIFY =
  "Knowing what is in the can: an identifier, or its pressure at two temperatures against candidates.";
