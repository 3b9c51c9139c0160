import type { FairDriftRow, FairRow } from "../fair-comparison.ts";
import type { HazardFinding } from "../hazards.ts";
import type { ClaimVerdict } from "../claims/context.ts";
import type { Closure } from "../../ledger/view.ts";
import type { Measured } from "../../measured.ts";

export type AnswerQuestion = "holds" | "cools" | "safe" | "restored";
export type AnswerVerdict = "yes" | "no" | "undecided";

/** One thing that an answer rests on, in numbers; words are for who shows it. SI. */
export type ReasonFact =
  | { readonly kind: "net-mass"; readonly claim: ClaimVerdict }
  | {
      readonly kind: "identity";
      /** Missing while nothing was weighed. */
      readonly says?: string;
      readonly declared?: string;
      readonly found?: string;
      /** Mass fractions, 95 %, of a mixture that was named. */
      readonly parts: readonly {
        readonly fluid: string;
        readonly from: number;
        readonly to: number;
      }[];
      readonly probability?: number;
    }
  | {
      readonly kind: "claims";
      readonly supported: number;
      readonly contradicted: readonly {
        readonly text: string;
        readonly because: string;
      }[];
      readonly undecided: number;
    }
  | { readonly kind: "vent"; readonly row: FairRow }
  | { readonly kind: "no-comparison"; readonly why: string }
  | {
      readonly kind: "flame";
      readonly hazard: HazardFinding;
      readonly burns: boolean | undefined;
    }
  | {
      readonly kind: "poison";
      /** Chance that the content poisons or attacks metal. */
      readonly probability: number | undefined;
    }
  | {
      readonly kind: "contaminated";
      readonly declared: string;
      readonly found: string;
    }
  | {
      readonly kind: "drift";
      readonly row: FairDriftRow;
      readonly margin: number;
    }
  | { readonly kind: "no-drift" }
  | { readonly kind: "refilled"; readonly mass: Measured; readonly target: number }
  | {
      readonly kind: "closures";
      readonly closures: number;
      readonly open: readonly Closure[];
    };

export interface Reason {
  readonly verdict: AnswerVerdict;
  readonly fact: ReasonFact;
}

/** One of the four questions, answered. */
export interface Answer {
  readonly question: AnswerQuestion;
  /** A product's id, or `vehicle`. */
  readonly about: string;
  readonly name: string;
  readonly verdict: AnswerVerdict;
  /** What weighs most first. */
  readonly reasons: readonly Reason[];
}

const WEIGHT: Readonly<Record<AnswerVerdict, number>> = { no: 0, undecided: 1, yes: 2 };

/** "No" where one reason says so, "yes" only where all do; without reasons undecided. */
export function verdictOf(reasons: readonly Reason[]): AnswerVerdict {
  if (reasons.some(({ verdict }) => verdict === "no")) return "no";
  return reasons.length > 0 && reasons.every(({ verdict }) => verdict === "yes")
    ? "yes"
    : "undecided";
}

/** What decides comes first, in the order in which the others stood. */
export const decidingFirst = (reasons: readonly Reason[]): readonly Reason[] =>
  [...reasons].sort((a, b) => WEIGHT[a.verdict] - WEIGHT[b.verdict]);
