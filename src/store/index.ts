/**
 * Knows where the log lives and that an acknowledged event stays there: the port, and SQLite behind it.
 * The browser's store has a door of its own (`browser.ts`), because it must not load SQLite.
 * Must never know what an event means, nor change one. Has no basis: it stores what the log says.
 */
export type { AppendOutcome, EventStore, StoredLog, StoredTrial, WriteFailure } from "./port.ts";
export { openSqliteStore } from "./sqlite.ts";
export type { OpenOutcome, SqliteStore } from "./sqlite.ts";
