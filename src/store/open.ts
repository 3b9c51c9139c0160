import type { OpenOutcome } from "./open-outcome.ts";
import { openPostgresStore } from "./postgres.ts";
import { openSqliteStore } from "./sqlite.ts";

/** Is this the address of a PostgreSQL database, rather than a file? */
export function isPostgres(place: string): boolean {
  return /^postgres(ql)?:\/\//i.test(place);
}

/** Opens the log at an address: `postgres://…`, or a file of SQLite. */
export function openStore(place: string): Promise<OpenOutcome> {
  return isPostgres(place) ? openPostgresStore(place) : openSqliteStore(place);
}
