import type { StoredEvent } from "../trial/index.ts";

/**
 * Why nothing was acknowledged although the events were in order. After `unreachable` (the connection to a
 * database broke) they may be there all the same; sending them again changes nothing then.
 */
export type WriteFailure = "disk-full" | "busy" | "read-only" | "disk-error" | "unreachable";

/**
 * What became of a batch. A batch is taken whole or not at all: after `refused` and `failed` the log
 * is as it was.
 *
 * - `appended`: every event is on disk. `duplicates` were there before, with the same content.
 * - `refused`: these ids are in the log, or twice in the batch, with different content.
 * - `failed`: the medium did not take it; sending again later is right.
 */
export type AppendOutcome =
  | {
      readonly kind: "appended";
      readonly accepted: readonly string[];
      readonly duplicates: readonly string[];
    }
  | { readonly kind: "refused"; readonly conflicts: readonly string[] }
  | { readonly kind: "failed"; readonly reason: WriteFailure };

/** One trial's events in the order in which this store took them. That order means nothing. */
export interface StoredLog {
  readonly events: readonly StoredEvent[];
  /** Give it to `read` to get only what came later. 0 before the first event. */
  readonly cursor: number;
}

export interface StoredTrial {
  readonly trial: string;
  /** How many events it holds; also its newest cursor. */
  readonly events: number;
}

/** One workspace's log. Events come in any order, late and more than once; each stays as it first came. */
export interface WorkspaceLog {
  /**
   * Resolves with `appended` only when a crash can no longer undo it.
   *
   * @param events as `parseEvent` gave them: it trims texts, and an untrimmed one would be another content.
   */
  append(events: readonly StoredEvent[]): Promise<AppendOutcome>;
  /** Events of one trial that came after a cursor; all of them without one. Unknown trial: none. */
  read(trial: string, after?: number): Promise<StoredLog>;
  /** Trials that have an event, by id. */
  trials(): Promise<readonly StoredTrial[]>;
}

/** Where the log lives. */
export interface EventStore extends WorkspaceLog {
  close(): Promise<void>;
}
