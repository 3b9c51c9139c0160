import type { AccessRecords } from "./access.ts";
import type { EventStore, WorkspaceLog } from "./port.ts";

/** The workspace of a log that one person keeps alone; every database has it from the start. */
export const homeWorkspace = "home";

/**
 * What other processes and screens want to know at once.
 *
 * - `appended`: a trial has events up to `cursor`.
 * - `revoked`: a device's key opens nothing any more.
 */
export type News =
  | {
      readonly kind: "appended";
      readonly workspace: string;
      readonly trial: string;
      readonly cursor: number;
    }
  | { readonly kind: "revoked"; readonly device: string };

/** A trial's stored chain, recomputed. `broken` names the first event that does not follow. */
export type TrialVerdict = {
  readonly workspace: string;
  readonly trial: string;
} & (
  | { readonly kind: "sound"; readonly events: number; readonly head: string }
  | {
      readonly kind: "broken";
      readonly seq: number;
      readonly reason: "gap" | "hash" | "head";
    }
);

/** One event as it is stored, for copies. */
export interface StoredRow {
  readonly seq: number;
  readonly content: string;
  readonly hash: string;
}

/** A trial's name and the end of its chain. */
export interface StoredTrialEnd {
  readonly workspace: string;
  readonly trial: string;
  readonly events: number;
  readonly head: string;
}

/** A whole database: workspaces kept apart, who may open them, and news. Itself the log of the home workspace. */
export interface LogStore extends EventStore {
  readonly kind: "sqlite" | "postgres";
  /** Absolute path of the file, or the database's address without its password. */
  readonly path: string;
  /** The log of one workspace; nothing else is reachable through it. */
  in(workspace: string): WorkspaceLog;
  readonly access: AccessRecords;
  /**
   * Tells what happens from now on, also in other processes on the same database (on SQLite within a second). News may be lost when a
   * connection breaks: whoever follows also looks for himself from time to time.
   *
   * @returns stops telling.
   */
  follow(listener: (news: News) => void): () => void;
  /** Recomputes every trial's chain, workspace by workspace. */
  verify(): AsyncIterable<TrialVerdict>;
  /** Every trial with the end of its chain, by workspace and id. */
  ends(): AsyncIterable<StoredTrialEnd>;
  /** A trial's rows in order, in pieces. */
  rows(workspace: string, trial: string): AsyncIterable<readonly StoredRow[]>;
  /** Writes a copy of the file while others write on; false where a database has no such way. */
  copyTo(file: string): Promise<boolean>;
}

/** The database does not answer now: a door says so and asks to try again. */
export class StoreUnavailable extends Error {
  override readonly name = "StoreUnavailable";
}
