import type { BodyOf, EventType } from "./events.ts";

/** What stands in a log: each statement with its history, and what could not be used. */

/** One objection to something that came from outside. */
export interface Issue {
  readonly field: string;
  readonly value: unknown;
  readonly accepted: string;
}

/** A line of the log as a store hands it over: the envelope is sound, the body not yet looked at. */
export interface StoredEvent {
  readonly id: string;
  readonly trial: string;
  readonly at: string;
  readonly device: string;
  readonly type: EventType;
  readonly v: 1;
  readonly body: unknown;
}

/** The types that state something; corrections and withdrawals change them. */
export type EntryType = Exclude<EventType, "entry-corrected" | "entry-withdrawn">;

/** Who took a statement back, when and why. */
export interface WithdrawalView {
  /** Ids of every withdrawal of this target; the earliest speaks. */
  readonly ids: readonly string[];
  readonly at: string;
  readonly device: string;
  readonly reason: string;
}

export interface CorrectionView {
  readonly id: string;
  readonly at: string;
  readonly device: string;
  readonly reason: string;
  readonly body: unknown;
  /** The one that holds now: latest by (at, id) among those not withdrawn. */
  readonly effective: boolean;
  readonly withdrawn?: WithdrawalView;
}

/** One statement of the log with its whole history. `body` is what holds now. */
export interface EntryOf<T extends EntryType> {
  readonly id: string;
  readonly type: T;
  readonly at: string;
  readonly device: string;
  /** When it happened: the body's `when`, else `at`. ISO 8601, as written. */
  readonly when: string;
  readonly body: BodyOf<T>;
  readonly original: BodyOf<T>;
  readonly corrections: readonly CorrectionView[];
  readonly withdrawn?: WithdrawalView;
  /** Ids of corrections made without sight of the effective one; a person should look at them. */
  readonly conflict: readonly string[];
}
export type Entry = { [T in EntryType]: EntryOf<T> }[EntryType];

/** An event that stays in the log but says nothing the projection can use. */
export interface Refused {
  readonly id: string;
  readonly type: EventType;
  readonly reason:
    | "bad-body"
    | "unknown-target"
    | "target-not-an-entry"
    | "bad-correction"
    | "other-trial"
    | "same-id-other-content";
  readonly issues: readonly Issue[];
}
