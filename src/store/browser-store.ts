import { openDB, type IDBPDatabase } from "idb";
import { canonicalText, type StoredEvent } from "../trial/index.ts";
import { type BrowserTables, upgrade, version } from "./browser-tables.ts";
import { distinct } from "./content.ts";
import type { AppendOutcome, EventStore, StoredLog, WriteFailure } from "./port.ts";

/** Events that the server has not acknowledged. */
export interface Outbox {
  /** Waiting to be sent, in the order in which they were made here. */
  readonly waiting: readonly StoredEvent[];
  /** Ids that the server will not take: it holds another event of that id. They stay here. */
  readonly refused: readonly string[];
}

export interface Merged {
  readonly added: number;
  readonly conflicts: readonly string[];
}

/** The port in a browser. `append` also puts what is new into the outbox. */
export interface BrowserStore extends EventStore {
  outbox(): Promise<Outbox>;
  /** The server has these. */
  acknowledge(ids: readonly string[]): Promise<void>;
  /** The server will never take these. */
  markRefused(ids: readonly string[]): Promise<void>;
  /** The server's cursor up to which a trial was merged; 0 when never. */
  pulled(trial: string): Promise<number>;
  /** Adds what the server sent and its cursor, in one transaction. Ids that differ here are left and named. */
  merge(trial: string, log: StoredLog): Promise<Merged>;
  /** Offers a trial again from its first event: the server has fewer events than it once sent. */
  offerAgain(trial: string): Promise<void>;
  /** Half-typed inputs, by a key of the caller's. */
  readonly drafts: {
    keep(key: string, value: unknown): Promise<void>;
    /** Undefined when there is none. */
    recall(key: string): Promise<unknown>;
    forget(key: string): Promise<void>;
  };
}

type Db = IDBPDatabase<BrowserTables>;
type Table = "events" | "trials" | "outbox" | "drafts";

/** `strict`: a transaction is complete only when the browser has asked the disk to keep it. */
function write<T extends Table>(db: Db, tables: T[]) {
  const tx = db.transaction(tables, "readwrite", { durability: "strict" });
  // A request that fails rejects both itself and `done`; whoever awaits the first may never see the second.
  tx.done.catch(() => undefined);
  return tx;
}

/**
 * Opens the device's store.
 *
 * @param onSuperseded called after the store closed itself, because another tab needs newer tables: reload.
 * @throws DOMException when the browser gives no storage (private mode of some browsers).
 */
export async function openBrowserStore(
  name = "coldproof",
  onSuperseded: () => void = () => undefined,
): Promise<BrowserStore> {
  const db: Db = await openDB<BrowserTables>(name, version, {
    upgrade: (fresh, from) => {
      upgrade(fresh, from);
    },
    // Without this, a tab left open would keep a newer version from ever opening.
    blocking: () => {
      db.close();
      onSuperseded();
    },
  });
  return {
    append: (events) => append(db, events, { outbox: true }),
    read: (trial, after = 0) => read(db, trial, after),
    trials: async () => {
      const rows = await db.getAll("trials");
      return rows.filter(({ seq }) => seq > 0).map(({ trial, seq }) => ({ trial, events: seq }));
    },
    close: () => {
      db.close();
      return Promise.resolve();
    },
    outbox: () => readOutbox(db),
    acknowledge: (ids) => settle(db, ids, "acknowledged"),
    markRefused: (ids) => settle(db, ids, "refused"),
    pulled: async (trial) => (await db.get("trials", trial))?.pulled ?? 0,
    merge: (trial, log) => merge(db, trial, log),
    offerAgain: (trial) => offerAgain(db, trial),
    drafts: draftsIn(db),
  };
}

function draftsIn(db: Db): BrowserStore["drafts"] {
  return {
    keep: async (key, value) => {
      const tx = write(db, ["drafts"]);
      await tx.objectStore("drafts").put({ key, value });
      await tx.done;
    },
    recall: async (key) => (await db.get("drafts", key))?.value,
    forget: async (key) => {
      const tx = write(db, ["drafts"]);
      await tx.objectStore("drafts").delete(key);
      await tx.done;
    },
  };
}

type AppendTx = ReturnType<typeof write<"events" | "trials" | "outbox">>;

async function append(
  db: Db,
  events: readonly StoredEvent[],
  { outbox }: { outbox: boolean },
): Promise<AppendOutcome> {
  const { entries, conflicts } = distinct(events);
  if (conflicts.length > 0) return { kind: "refused", conflicts };
  const tx = write(db, ["events", "trials", "outbox"]);
  try {
    const sorted = await sortByKnown(tx, entries);
    if (sorted.conflicts.length > 0) {
      tx.abort();
      await tx.done.catch(() => undefined);
      return { kind: "refused", conflicts: sorted.conflicts };
    }
    await insert(tx, sorted.fresh, outbox);
    await tx.done;
    const accepted = sorted.fresh.map(({ id }) => id);
    return { kind: "appended", accepted, duplicates: sorted.duplicates };
  } catch (error) {
    const reason = failureOf(error);
    if (reason === undefined) throw error;
    return { kind: "failed", reason };
  }
}

async function sortByKnown(tx: AppendTx, entries: ReturnType<typeof distinct>["entries"]) {
  const table = tx.objectStore("events");
  const fresh: StoredEvent[] = [];
  const duplicates: string[] = [];
  const conflicts: string[] = [];
  // Asked for together: one after the other a long log would take minutes.
  const rows = await Promise.all(entries.map(({ event }) => table.get(event.id)));
  for (const [i, { event, content }] of entries.entries()) {
    const known = rows[i];
    if (known === undefined) fresh.push(event);
    else (canonicalText(known.event) === content ? duplicates : conflicts).push(event.id);
  }
  return { fresh, duplicates, conflicts };
}

async function insert(tx: AppendTx, fresh: readonly StoredEvent[], outbox: boolean): Promise<void> {
  const rows = new Map<string, BrowserTables["trials"]["value"]>();
  const written: Promise<unknown>[] = [];
  for (const event of fresh) {
    const { id, trial } = event;
    const known = rows.get(trial) ?? (await tx.objectStore("trials").get(trial));
    const row = known ?? { trial, seq: 0, pulled: 0 };
    const seq = row.seq + 1;
    rows.set(trial, { ...row, seq });
    written.push(tx.objectStore("events").add({ id, trial, seq, event }));
    if (outbox) written.push(tx.objectStore("outbox").add({ trial, seq, id, refused: false }));
  }
  for (const row of rows.values()) written.push(tx.objectStore("trials").put(row));
  await Promise.all(written);
}

async function read(db: Db, trial: string, after: number): Promise<StoredLog> {
  const range = IDBKeyRange.bound([trial, after], [trial, Infinity], true);
  const rows = await db.getAllFromIndex("events", "by-trial", range);
  return { events: rows.map(({ event }) => event), cursor: rows.at(-1)?.seq ?? after };
}

async function readOutbox(db: Db): Promise<Outbox> {
  const tx = db.transaction(["outbox", "events"]);
  const rows = await tx.objectStore("outbox").getAll();
  const refused = rows.filter((row) => row.refused).map(({ id }) => id);
  const events = tx.objectStore("events");
  const stored = await Promise.all(
    rows.filter((row) => !row.refused).map(({ id }) => events.get(id)),
  );
  const waiting = stored.flatMap((one) => (one === undefined ? [] : [one.event]));
  await tx.done;
  return { waiting, refused };
}

async function settle(db: Db, ids: readonly string[], as: "acknowledged" | "refused") {
  const tx = write(db, ["events", "outbox"]);
  for (const id of ids) {
    const stored = await tx.objectStore("events").get(id);
    if (stored === undefined) continue;
    const { trial, seq } = stored;
    if (as === "acknowledged") await tx.objectStore("outbox").delete([trial, seq]);
    else await tx.objectStore("outbox").put({ trial, seq, id, refused: true });
  }
  await tx.done;
}

async function merge(db: Db, trial: string, { events, cursor }: StoredLog): Promise<Merged> {
  const { entries, conflicts } = distinct(events);
  const tx = write(db, ["events", "trials", "outbox"]);
  const sorted = await sortByKnown(tx, entries);
  await insert(tx, sorted.fresh, false);
  const row = (await tx.objectStore("trials").get(trial)) ?? { trial, seq: 0, pulled: 0 };
  await tx.objectStore("trials").put({ ...row, pulled: cursor });
  await tx.done;
  return { added: sorted.fresh.length, conflicts: [...conflicts, ...sorted.conflicts] };
}

async function offerAgain(db: Db, trial: string): Promise<void> {
  const tx = write(db, ["events", "trials", "outbox"]);
  const range = IDBKeyRange.bound([trial, 0], [trial, Infinity]);
  for (const { id, seq } of await tx.objectStore("events").index("by-trial").getAll(range)) {
    const row = await tx.objectStore("outbox").get([trial, seq]);
    if (row === undefined) await tx.objectStore("outbox").add({ trial, seq, id, refused: false });
  }
  const row = await tx.objectStore("trials").get(trial);
  if (row !== undefined) await tx.objectStore("trials").put({ ...row, pulled: 0 });
  await tx.done;
}

function failureOf(error: unknown): WriteFailure | undefined {
  if (!(error instanceof DOMException)) return undefined;
  if (error.name === "QuotaExceededError") return "disk-full";
  if (error.name === "UnknownError") return "disk-error";
  return undefined;
}
