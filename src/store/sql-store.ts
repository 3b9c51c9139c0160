import type { Kysely, Transaction } from "kysely";
import type { StoredEvent } from "../trial/index.ts";
import { distinct } from "./content.ts";
import type { AppendOutcome, StoredLog, StoredTrial } from "./port.ts";
import type { Tables } from "./schema.ts";

/** Rows in one statement: far below the number of parameters that any database takes. */
const chunk = 500;

type Entry = ReturnType<typeof distinct>["entries"][number];

/**
 * Appends a batch in one transaction, whole or not at all.
 *
 * The first statement claims the trials' rows. In PostgreSQL that orders writers of one trial; in
 * SQLite it takes the write lock before anything was read, so a second process waits instead of failing.
 *
 * @throws whatever the database throws; nothing was written then.
 */
export async function appendRows(
  db: Kysely<Tables>,
  events: readonly StoredEvent[],
): Promise<AppendOutcome> {
  const { entries, conflicts } = distinct(events);
  if (conflicts.length > 0) return { kind: "refused", conflicts };
  if (entries.length === 0) return { kind: "appended", accepted: [], duplicates: [] };
  const tx = await db.startTransaction().execute();
  try {
    const next = await claim(tx, entries);
    const known = await knownContents(tx, entries);
    const outcome = sort(entries, known);
    if (outcome.kind === "refused") {
      await tx.rollback().execute();
      return { kind: "refused", conflicts: outcome.conflicts };
    }
    await insert(tx, outcome.fresh, next);
    await tx.commit().execute();
    const accepted = outcome.fresh.map(({ event }) => event.id);
    const fresh = new Set(accepted);
    return {
      kind: "appended",
      accepted,
      duplicates: entries.map(({ event }) => event.id).filter((id) => !fresh.has(id)),
    };
  } catch (error) {
    if (!tx.isCommitted && !tx.isRolledBack) await tx.rollback().execute();
    throw error;
  }
}

/** Locks the trials of a batch, always in the same order, and gives the last number of each. */
async function claim(tx: Transaction<Tables>, entries: readonly Entry[]) {
  const trials = [...new Set(entries.map(({ event }) => event.trial))].sort();
  const next = new Map<string, number>();
  for (const id of trials) {
    const row = await tx
      .insertInto("trial")
      .values({ id, last_seq: 0 })
      .onConflict((on) =>
        on.column("id").doUpdateSet((eb) => ({ last_seq: eb.ref("trial.last_seq") })),
      )
      .returning("last_seq")
      .executeTakeFirstOrThrow();
    next.set(id, row.last_seq);
  }
  return next;
}

async function knownContents(tx: Transaction<Tables>, entries: readonly Entry[]) {
  const known = new Map<string, string>();
  for (const part of chunks(entries)) {
    const ids = part.map(({ event }) => event.id);
    const rows = await tx
      .selectFrom("event")
      .select(["id", "content"])
      .where("id", "in", ids)
      .execute();
    for (const row of rows) known.set(row.id, row.content);
  }
  return known;
}

function sort(entries: readonly Entry[], known: ReadonlyMap<string, string>) {
  const fresh = entries.filter(({ event }) => !known.has(event.id));
  const conflicts = entries
    .filter(({ event, content }) => known.has(event.id) && known.get(event.id) !== content)
    .map(({ event }) => event.id);
  return conflicts.length > 0
    ? ({ kind: "refused", conflicts } as const)
    : ({ kind: "in-order", fresh } as const);
}

async function insert(tx: Transaction<Tables>, fresh: readonly Entry[], last: Map<string, number>) {
  const rows = fresh.map(({ event, content }) => {
    const seq = (last.get(event.trial) ?? 0) + 1;
    last.set(event.trial, seq);
    return { id: event.id, trial: event.trial, seq, content };
  });
  for (const part of chunks(rows)) await tx.insertInto("event").values(part).execute();
  for (const [id, last_seq] of last) {
    await tx.updateTable("trial").set({ last_seq }).where("id", "=", id).execute();
  }
}

function chunks<T>(items: readonly T[]): T[][] {
  const parts: T[][] = [];
  for (let i = 0; i < items.length; i += chunk) parts.push(items.slice(i, i + chunk));
  return parts;
}

/** Events of a trial after a cursor, in order of arrival. */
export async function readRows(
  db: Kysely<Tables>,
  trial: string,
  after: number,
): Promise<StoredLog> {
  const rows = await db
    .selectFrom("event")
    .select(["seq", "content"])
    .where("trial", "=", trial)
    .where("seq", ">", after)
    .orderBy("seq")
    .execute();
  return {
    // Only `appendRows` writes this column, from events that a door parsed.
    events: rows.map((row) => JSON.parse(row.content) as StoredEvent),
    cursor: rows.at(-1)?.seq ?? after,
  };
}

export async function trialRows(db: Kysely<Tables>): Promise<readonly StoredTrial[]> {
  const rows = await db
    .selectFrom("trial")
    .select(["id", "last_seq"])
    .where("last_seq", ">", 0)
    .orderBy("id")
    .execute();
  return rows.map((row) => ({ trial: row.id, events: row.last_seq }));
}
