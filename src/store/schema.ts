import type { Kysely, Migration } from "kysely";
import { addWorkspaces } from "./schema-workspaces.ts";

/** Tables as SQLite and PostgreSQL both have them. */
export interface Tables {
  workspace: {
    id: string;
    name: string;
    epoch: string;
    /** ISO instants in UTC, of equal length: they sort as text. */
    created: string;
  };
  trial: {
    workspace: string;
    id: string;
    /** Number of the newest event; its row is also the lock that orders writers of one trial. */
    last_seq: number;
    /** Hash of the chain up to there. */
    head: string;
  };
  event: {
    workspace: string;
    id: string;
    trial: string;
    /** 1, 2, 3 … without gaps within a trial, so that a reader's cursor never passes over a late commit. */
    seq: number;
    /** The event's canonical text: equal texts, equal events. */
    content: string;
    /** Hash of the trial's chain up to this event. */
    hash: string;
  };
  device: {
    id: string;
    workspace: string;
    name: string;
    role: string;
    key_hash: string;
    created: string;
    revoked: string | null;
    /** When it last asked for something, to the minute. */
    seen: string | null;
  };
  pairing: {
    code_hash: string;
    workspace: string;
    role: string;
    name: string;
    expires: string;
  };
}

/**
 * Every version of the schema, oldest first; a name is never changed once released. What an older
 * version wrote stays readable.
 */
export const migrations: Readonly<Record<string, Migration>> = {
  "0001-events": { up: createEvents },
  "0002-workspaces": { up: addWorkspaces },
  "0003-seen": { up: addSeen },
};

async function addSeen(db: Kysely<unknown>): Promise<void> {
  await db.schema.alterTable("device").addColumn("seen", "text").execute();
}

async function createEvents(db: Kysely<unknown>): Promise<void> {
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
