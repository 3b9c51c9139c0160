import type { Measured } from "../view.ts";

/** Where mass can be: a vessel's id, the vehicle, gone for good, or not explained by any reading. */
export type AccountId = string;
export const vehicleAccount = "vehicle";
export const lostAccount = "lost";
export const unaccountedAccount = "unaccounted";

/** `fluid:R134a`, `product:<id>` or `unknown`: what the mass is, as far as anyone knows. */
export type SubstanceKey = string;

/** kg of one substance. */
export interface Content {
  readonly substance: SubstanceKey;
  /** As people read it: the fluid's or the product's name. */
  readonly name: string;
  readonly mass: Measured;
}

/** What the contents rest on: a scale, somebody's word, or nothing at all. */
export type ContentBasis = "weighed" | "declared" | "none";

export interface AccountStep {
  readonly entry: string;
  readonly when: string;
  /** Total after this posting, kg. */
  readonly mass: Measured;
}

export interface Account {
  readonly id: AccountId;
  readonly name: string;
  readonly kind: "vehicle" | "vessel" | "lost" | "unaccounted";
  readonly basis: ContentBasis;
  /** Contents at the start of the trial, kg. */
  readonly initial: Measured;
  readonly mass: Measured;
  readonly contents: readonly Content[];
  readonly history: readonly AccountStep[];
  /** What it has held since it was last found empty (or since the start). */
  readonly heldSinceEmpty: readonly SubstanceKey[];
  /** Last time it was found empty. */
  readonly foundEmpty?: string;
}

/** Mass from one account to another. Each entry posts one line or more; all lines sum to nothing. */
export interface Posting {
  readonly entry: string;
  readonly when: string;
  readonly from: AccountId;
  readonly to: AccountId;
  /** kg; negative when a disagreement runs the other way. */
  readonly mass: Measured;
  readonly parts: readonly Content[];
  readonly leg: "moved" | "purged" | "disagreement" | "found-empty";
  readonly evidence: "source" | "destination" | "both" | "stated" | "inspection";
  readonly phase?: "liquid" | "vapour" | "unknown";
  /** True when no scale was named and the general limit for shop scales was assumed. */
  readonly scaleAssumed: boolean;
}

/** A place where two statements about the same mass can be held against each other. */
export interface Closure {
  readonly entry: string;
  readonly when: string;
  readonly account: AccountId;
  readonly kind:
    "both-weighed" | "found-empty" | "gross-mass" | "negative-contents" | "runs-backwards";
  /** kg: what the ledger expects minus what was found. */
  readonly residual: number;
  readonly u: number;
  /** residual / u: how many standard uncertainties. */
  readonly z: number;
  /** |z| <= 2 closes; <= 3 doubtful; beyond that it does not close. */
  readonly grade: "closes" | "doubtful" | "does-not-close";
  /** True when the expectation rests on a declaration and not on a scale. */
  readonly declared: boolean;
  readonly sentence: string;
}

/** All accounts after one entry, kg: enough to draw columns of one scale at any time. */
export interface LedgerStep {
  readonly entry: string;
  readonly when: string;
  readonly masses: ReadonlyMap<AccountId, number>;
}

export interface Ledger {
  readonly accounts: readonly Account[];
  readonly postings: readonly Posting[];
  readonly closures: readonly Closure[];
  readonly steps: readonly LedgerStep[];
  /** Largest mass that any account ever held, kg: the top of every column. */
  readonly largest: number;
  /** Sum over all accounts against the sum of initial contents, kg. */
  readonly conservation: {
    readonly initial: number;
    readonly now: number;
    readonly holds: boolean;
  };
}

/** What `mixingWarning` has against a transfer; each is a caution, none is a lock. */
export interface MixingConcern {
  readonly kind:
    | "mixes"
    | "unknown-contents"
    | "not-emptied-since"
    | "not-flammable-rated"
    | "pressure-rating-unknown"
    | "same-vessel"
    | "not-a-recovery-vessel";
  readonly severity: "stop" | "check";
  readonly sentence: string;
}
