import type { LogStore } from "./log-store.ts";

/**
 * - `newer-version`: a later Coldproof wrote this; `detail` names the versions unknown here.
 * - `damaged`: SQLite's own check found faults; `detail` is what it says.
 * - `not-a-log`: the file or database is something else.
 * - `unreachable`: the file cannot be made, read or written; the database does not let us in.
 */
export interface OpenProblem {
  readonly reason: "newer-version" | "damaged" | "not-a-log" | "unreachable";
  readonly detail: string;
}

export type OpenOutcome =
  | { readonly kind: "opened"; readonly store: LogStore }
  | ({ readonly kind: "refused"; readonly path: string } & OpenProblem);
