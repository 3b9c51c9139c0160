import type { ControlledTransaction, Kysely, Transaction } from "kysely";
import { chainHash, chainStart } from "../trial/index.ts";
import type { Distinct, Entry } from "./content.ts";
import { digest } from "./digest.ts";
import type { News } from "./log-store.ts";
import type { AppendOutcome } from "./port.ts";
import type { Tables } from "./schema.ts";
import { inTurns, turn } from "./turns.ts";

/** Rows in one statement: far below the number of parameters that any database takes. */
const chunk = 500;

/** What one caller wants to have appended, whole or not at all. */
export interface Batch extends Distinct {
  readonly workspace: string;
}

/** A database's quickest way to add rows: its query builder takes ten times as long over some hundred rows as the database. */
export type InsertRows = (tx: Transaction<Tables>, rows: readonly EventRow[]) => Promise<unknown>;

export interface GroupOutcome {
  /** One for each batch, in their order. */
  readonly outcomes: readonly AppendOutcome[];
  /** The trials that grew. */
  readonly news: readonly Extract<News, { kind: "appended" }>[];
  /** Where the trials of the group end now. */
  readonly ends: ReadonlyMap<string, End>;
}

export type EventRow = Tables["event"];

/** A trial's end while a group is worked through. */
export interface End {
  readonly workspace: string;
  readonly trial: string;
  seq: number;
  head: string;
  grew: boolean;
}

/**
 * Appends several batches in one transaction, so that they share one wait for the disk. Each batch is
 * taken or refused by itself, in the order given. Over a long batch others get their turn meanwhile.
 *
 * The first statement claims the trials' rows. In PostgreSQL that orders writers of one trial; in
 * SQLite it takes the write lock before anything was read, so a second process waits instead of failing.
 *
 * @throws whatever the database throws; nothing was written then.
 */
export async function appendGroup(
  db: Kysely<Tables>,
  batches: readonly Batch[],
  insert: InsertRows,
): Promise<GroupOutcome> {
  const sound = batches.filter(({ conflicts, entries }) => conflicts.length + entries.length > 0);
  if (sound.every(({ conflicts }) => conflicts.length > 0)) {
    return {
      outcomes: batches.map(({ conflicts }) => withoutRows(conflicts)),
      news: [],
      ends: new Map(),
    };
  }
  return inTransaction(db, async (tx) => {
    const ends = await claim(tx, sound);
    const known = await knownContents(tx, sound);
    const rows: EventRow[] = [];
    const outcomes: AppendOutcome[] = [];
    for (const { workspace, entries, conflicts } of batches) {
      const placing = place(workspace, entries, { ends, known, rows });
      outcomes.push(conflicts.length > 0 ? withoutRows(conflicts) : await inTurns(placing));
    }
    if (rows.length === 0) await tx.rollback().execute();
    else await write(tx, { rows, ends, insert });
    return { outcomes, news: newsOf(ends), ends };
  });
}

/** Rolls back what was neither committed nor rolled back by the work itself. */
export async function inTransaction<T>(
  db: Kysely<Tables>,
  work: (tx: ControlledTransaction<Tables>) => Promise<T>,
): Promise<T> {
  const tx = await db.startTransaction().execute();
  try {
    return await work(tx);
  } catch (error) {
    if (!tx.isCommitted && !tx.isRolledBack) await tx.rollback().execute().catch(ignore);
    throw error;
  }
}

/** Writes rows and the ends of their trials, and commits. */
export async function write(
  tx: ControlledTransaction<Tables>,
  {
    rows,
    ends,
    insert,
  }: { rows: readonly EventRow[]; ends: ReadonlyMap<string, End>; insert: InsertRows },
): Promise<void> {
  await inTurn(chunks(rows), (part) => insert(tx, part));
  // From here on without a turn: nobody reads a trial's new end before it is safe.
  await moveEnds(tx, ends);
  await tx.commit().execute();
}

/** A connection that broke cannot roll back; the database does it then. */
function ignore(): void {
  // The first error is the one to tell.
}

function withoutRows(conflicts: readonly string[]): AppendOutcome {
  return conflicts.length > 0
    ? { kind: "refused", conflicts }
    : { kind: "appended", accepted: [], duplicates: [] };
}

/** One part after the other, with a turn for other requests between two. */
async function inTurn<T>(parts: readonly T[], work: (part: T) => Promise<unknown>) {
  for (const [i, part] of parts.entries()) {
    if (i > 0) await turn();
    await work(part);
  }
}

export const keyOf = (workspace: string, id: string) => `${workspace} ${id}`;

/** Locks the trials of a group, always in the same order, and gives the end of each. */
export async function claim(tx: Transaction<Tables>, group: readonly Batch[]) {
  const wanted = new Map<string, Tables["trial"]>();
  for (const { workspace, entries } of group) {
    for (const { event } of entries) {
      const row = { workspace, id: event.trial, last_seq: 0, head: chainStart };
      wanted.set(keyOf(workspace, event.trial), row);
    }
  }
  const ordered = [...wanted].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, row]) => row);
  const ends = new Map<string, End>();
  for (const part of chunks(ordered)) {
    const rows = await tx
      .insertInto("trial")
      .values(part)
      .onConflict((on) =>
        on
          .columns(["workspace", "id"])
          .doUpdateSet((eb) => ({ last_seq: eb.ref("trial.last_seq") })),
      )
      .returningAll()
      .execute();
    for (const { workspace, id, last_seq, head } of rows) {
      const end = { workspace, trial: id, seq: last_seq, head, grew: false };
      ends.set(keyOf(workspace, id), end);
    }
  }
  return ends;
}

export async function knownContents(db: Kysely<Tables>, group: readonly Batch[]) {
  const ids = new Map<string, Set<string>>();
  for (const { workspace, entries } of group) {
    const own = ids.get(workspace) ?? new Set();
    for (const { event } of entries) own.add(event.id);
    ids.set(workspace, own);
  }
  const known = new Map<string, string>();
  for (const [workspace, own] of ids) {
    await inTurn(chunks([...own]), async (part) => {
      const rows = await db
        .selectFrom("event")
        .select(["id", "content"])
        .where("workspace", "=", workspace)
        .where("id", "in", part)
        .execute();
      for (const row of rows) known.set(keyOf(workspace, row.id), row.content);
    });
  }
  return known;
}

/** Events that are placed between two yields. */
const slice = 250;

/** Decides about one batch and, when it is taken, puts its rows at the ends of their trials; in slices. */
export function* place(
  workspace: string,
  entries: readonly Entry[],
  { ends, known, rows }: { ends: Map<string, End>; known: Map<string, string>; rows: EventRow[] },
): Generator<void, AppendOutcome> {
  const accepted: string[] = [];
  const duplicates: string[] = [];
  const conflicts: string[] = [];
  for (const { event, content } of entries) {
    const before = known.get(keyOf(workspace, event.id));
    const list = before === undefined ? accepted : before === content ? duplicates : conflicts;
    list.push(event.id);
  }
  if (conflicts.length > 0) return { kind: "refused", conflicts };
  const fresh = new Set(accepted);
  for (const [i, { event, content }] of entries.entries()) {
    if (i % slice === slice - 1) yield;
    if (!fresh.has(event.id)) continue;
    const end = ends.get(keyOf(workspace, event.trial));
    if (end === undefined) throw new Error(`trial ${event.trial} was not claimed`);
    end.seq += 1;
    end.head = chainHash(end.head, content, digest);
    end.grew = true;
    known.set(keyOf(workspace, event.id), content);
    const { id, trial } = event;
    rows.push({ workspace, id, trial, seq: end.seq, content, hash: end.head });
  }
  return { kind: "appended", accepted, duplicates };
}

async function moveEnds(tx: Transaction<Tables>, ends: ReadonlyMap<string, End>) {
  const grown = [...ends.values()]
    .filter(({ grew }) => grew)
    .map(({ workspace, trial, seq, head }) => ({ workspace, id: trial, last_seq: seq, head }));
  for (const part of chunks(grown)) {
    await tx
      .insertInto("trial")
      .values(part)
      .onConflict((on) =>
        on.columns(["workspace", "id"]).doUpdateSet((eb) => ({
          last_seq: eb.ref("excluded.last_seq"),
          head: eb.ref("excluded.head"),
        })),
      )
      .execute();
  }
}

export function newsOf(ends: ReadonlyMap<string, End>) {
  return [...ends.values()]
    .filter(({ grew }) => grew)
    .map(({ workspace, trial, seq }) => {
      return { kind: "appended", workspace, trial, cursor: seq } as const;
    });
}

function chunks<T>(items: readonly T[]): T[][] {
  const parts: T[][] = [];
  for (let i = 0; i < items.length; i += chunk) parts.push(items.slice(i, i + chunk));
  return parts;
}
