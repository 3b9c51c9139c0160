import type { Kysely, Migration } from "kysely";

/** Tables as SQLite and PostgreSQL both have them. */
export interface Tables {
  trial: {
    id: string;
    /** Number of the newest event; its row is also the lock that orders writers of one trial. */
    last_seq: number;
  };
  event: {
    id: string;
    trial: string;
    /** 1, 2, 3 … without gaps within a trial, so that a reader's cursor never passes over a late commit. */
    seq: number;
    /** The event's canonical text: equal texts, equal events. */
    content: string;
  };
}

/**
 * Every version of the schema, oldest first; a name is never changed once released. A migration adds:
 * what an older version wrote stays readable.
 */
export const migrations: Readonly<Record<string, Migration>> = {
  "0001-events": { up: createEvents },
};

async function createEvents(db: Kysely<Tables>): Promise<void> {
  await db.schema
    .createTable("trial")
    .addColumn("id", "text", (column) => column.primaryKey())
    .addColumn("last_seq", "integer", (column) => column.notNull())
    .execute();
  await db.schema
    .createTable("event")
    .addColumn("id", "text", (column) => column.primaryKey())
    .addColumn("trial", "text", (column) => column.notNull().references("trial.id"))
    .addColumn("seq", "integer", (column) => column.notNull())
    .addColumn("content", "text", (column) => column.notNull())
    .addUniqueConstraint("event_trial_seq", ["trial", "seq"])
    .execute();
}
