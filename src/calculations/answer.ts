/** A field of the input that is not usable, what was given, and what would be. */
export interface Issue {
  readonly field: string;
  /** What was given, shortened; "NaN" and the like as words, so that it survives JSON. */
  readonly value: string | number | boolean | null;
  /** A sentence or list that says what is accepted. */
  readonly accepted: string;
}

/** Literal reasons for which nature or a table has no answer to a proper question. */
export type NoAnswerReason =
  | "above-critical"
  | "below-minimum"
  | "outside-equation"
  | "not-converged"
  /** Bubble, dew or two-phase states of this composition do not exist there. */
  | "no-solution"
  | "outside-water-equations";

export interface NoAnswer {
  readonly kind: "no-answer";
  readonly reason: NoAnswerReason;
  readonly message: string;
  /** The numbers behind the message, SI, finite. */
  readonly numbers: Readonly<Record<string, number>>;
}

export interface InvalidInput {
  readonly kind: "invalid";
  readonly issues: readonly Issue[];
}

/** A finished answer. Numbers are SI; `uncertainty` holds standard uncertainties by the name of their result. */
export interface FullAnswer<Result> {
  readonly kind: "answer";
  readonly result: Result;
  readonly uncertainty?: Readonly<Record<string, number>>;
  readonly cautions: readonly string[];
  readonly sources: readonly string[];
  readonly assumptions?: readonly string[];
}

export type Answer<Result = unknown> = FullAnswer<Result> | InvalidInput | NoAnswer;

const LONGEST = 80;

const shorten = (text: string): string =>
  text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;

/** Anything at all as something short that survives JSON. */
export function shown(value: unknown): Issue["value"] {
  if (value === null || typeof value === "boolean") return value;
  if (value === undefined) return "nothing";
  if (typeof value === "string") return shorten(value);
  if (typeof value === "number") return Number.isFinite(value) ? value : String(value);
  if (Array.isArray(value)) return "a list";
  return typeof value === "object" ? "an object" : `a ${typeof value}`;
}

export const issue = (field: string, value: unknown, accepted: string): Issue => ({
  field: shorten(field),
  value: shown(value),
  accepted,
});

export const invalidInput = (...issues: readonly Issue[]): InvalidInput => ({
  kind: "invalid",
  issues,
});
