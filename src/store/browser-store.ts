import { openDB, type IDBPDatabase } from "idb";
import { canonicalText, type StoredEvent } from "../trial/index.ts";
import { addTo, eventsAt, numbered, packOldest, readLog, stored } from "./browser-packs.ts";
import {
  type AnyTx,
  type BrowserTables,
  type LogTx,
  span,
  type Table,
  type TrialRow,
  upgrade,
  version,
} from "./browser-tables.ts";
import { distinct } from "./content.ts";
import type { AppendOutcome, EventStore, StoredLog, WriteFailure } from "./port.ts";

/** Events that the server has not acknowledged. */
export interface Outbox {
  /** The first of those waiting to be sent, in the order in which they were made here. */
  readonly waiting: readonly StoredEvent[];
  /** How many wait altogether. */
  readonly count: number;
  /** Ids that the server will not take: it holds another event of that id. They stay here. */
  readonly refused: readonly string[];
}

export interface Merged {
  readonly added: number;
  readonly conflicts: readonly string[];
}

/** The port in a browser. `append` also puts what is new into the outbox. */
export interface BrowserStore extends EventStore {
  /** @param most so many of the waiting at most. */
  outbox(most: number): Promise<Outbox>;
  /** The server has these. */
  acknowledge(ids: readonly string[]): Promise<void>;
  /** The server will never take these. */
  markRefused(ids: readonly string[]): Promise<void>;
  /** The server's cursor up to which a trial was merged; 0 when never. */
  pulled(trial: string): Promise<number>;
  /**
   * Adds what the server sent and its cursor, in one transaction. Ids that differ here are left and named.
   *
   * @param after cursor that the server was asked from. Where another window has moved it meanwhile, or set it back to
   * offer everything again, it stays as that window left it: what is asked for twice changes nothing, what is passed over is lost.
   */
  merge(trial: string, log: StoredLog, after: number): Promise<Merged>;
  /** Offers a trial again from its first event: the server has fewer events than it once sent. */
  offerAgain(trial: string): Promise<void>;
  /** Packs what an older version kept one by one. Changes nothing else, and may be cut off anywhere. */
  tidy(): Promise<void>;
  /** Half-typed inputs, by a key of the caller's. */
  readonly drafts: {
    keep(key: string, value: unknown): Promise<void>;
    /** Undefined when there is none. */
    recall(key: string): Promise<unknown>;
    forget(key: string): Promise<void>;
  };
}

type Db = IDBPDatabase<BrowserTables>;
const ofLog: Table[] = ["events", "packs", "packed", "trials", "outbox"];

/** `strict`: a transaction is complete only when the browser has asked the disk to keep it. */
function write(db: Db, tables = ofLog): LogTx<"readwrite"> {
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
    upgrade: (fresh, from, _to, tx) => {
      // Its transaction fails with it, and then nothing opens.
      upgrade(fresh, from, tx).catch(() => undefined);
    },
    // Without this, a tab left open would keep a newer version from ever opening.
    blocking: () => {
      db.close();
      onSuperseded();
    },
  });
  return {
    append: (events) => append(db, events),
    read: (trial, after = 0) => readLog(db.transaction(ofLog, "readonly"), trial, after),
    trials: async () => {
      const rows = await db.getAll("trials");
      return rows.filter(({ seq }) => seq > 0).map(({ trial, seq }) => ({ trial, events: seq }));
    },
    close: () => {
      db.close();
      return Promise.resolve();
    },
    outbox: (most) => readOutbox(db, most),
    acknowledge: (ids) => settle(db, ids, "acknowledged"),
    markRefused: (ids) => settle(db, ids, "refused"),
    pulled: async (trial) => (await db.get("trials", trial))?.pulled ?? 0,
    merge: (trial, log, after) => merge(db, { trial, after }, log),
    offerAgain: (trial) => offerAgain(db, trial),
    tidy: () => tidy(db),
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

async function append(db: Db, events: readonly StoredEvent[]): Promise<AppendOutcome> {
  const { entries, conflicts } = distinct(events);
  if (conflicts.length > 0) return { kind: "refused", conflicts };
  try {
    const tx = write(db);
    const sorted = await sortByKnown(tx, entries);
    if (sorted.conflicts.length > 0) {
      tx.abort();
      await tx.done.catch(() => undefined);
      return { kind: "refused", conflicts: sorted.conflicts };
    }
    await insert(tx, sorted.fresh, true);
    await tx.done;
    const accepted = sorted.fresh.map(({ id }) => id);
    return { kind: "appended", accepted, duplicates: sorted.duplicates };
  } catch (error) {
    const reason = failureOf(error);
    if (reason === undefined) throw error;
    return { kind: "failed", reason };
  }
}

async function sortByKnown(tx: AnyTx, entries: ReturnType<typeof distinct>["entries"]) {
  const fresh: StoredEvent[] = [];
  const duplicates: string[] = [];
  const conflicts: string[] = [];
  const here = await stored(
    tx,
    entries.map(({ event }) => event.id),
  );
  for (const { event, content } of entries) {
    const known = here.get(event.id);
    if (known === undefined) fresh.push(event);
    else (canonicalText(known) === content ? duplicates : conflicts).push(event.id);
  }
  return { fresh, duplicates, conflicts };
}

const rowOf = async (tx: AnyTx, trial: string): Promise<TrialRow> =>
  (await tx.objectStore("trials").get(trial)) ?? { trial, seq: 0, pulled: 0 };

async function insert(tx: LogTx<"readwrite">, fresh: readonly StoredEvent[], outbox: boolean) {
  const byTrial = new Map<string, StoredEvent[]>();
  for (const event of fresh) {
    const mine = byTrial.get(event.trial);
    if (mine) mine.push(event);
    else byTrial.set(event.trial, [event]);
  }
  for (const [trial, events] of byTrial) {
    const row = await rowOf(tx, trial);
    await tx.objectStore("trials").put(await addTo(tx, row, events));
    if (!outbox) continue;
    const rows = events.map(
      ({ id }, i) => ({ trial, seq: row.seq + 1 + i, id, refused: 0 }) as const,
    );
    await Promise.all(rows.map((one) => tx.objectStore("outbox").add(one)));
  }
}

async function readOutbox(db: Db, most: number): Promise<Outbox> {
  const tx = db.transaction(ofLog, "readonly");
  const outbox = tx.objectStore("outbox");
  const [all, refused] = await Promise.all([outbox.count(), outbox.index("by-refused").getAll(1)]);
  const rows = await outbox.getAll(undefined, most + refused.length);
  const waiting = rows.filter((row) => row.refused === 0).slice(0, most);
  return {
    waiting: await eventsAt(tx, waiting),
    count: all - refused.length,
    refused: refused.map(({ id }) => id),
  };
}

async function settle(db: Db, ids: readonly string[], as: "acknowledged" | "refused") {
  const tx = write(db, ["outbox"]);
  const outbox = tx.objectStore("outbox");
  const rows = await Promise.all(ids.map((id) => outbox.index("by-id").get(id)));
  const here = rows.filter((row) => row !== undefined);
  if (as === "refused") await Promise.all(here.map((row) => outbox.put({ ...row, refused: 1 })));
  else await Promise.all(here.map(({ trial, seq }) => outbox.delete([trial, seq])));
  await tx.done;
}

async function merge(
  db: Db,
  { trial, after }: { readonly trial: string; readonly after: number },
  { events, cursor }: StoredLog,
): Promise<Merged> {
  const { entries, conflicts } = distinct(events);
  const tx = write(db);
  const sorted = await sortByKnown(tx, entries);
  await insert(tx, sorted.fresh, false);
  const row = await rowOf(tx, trial);
  if (row.pulled === after) await tx.objectStore("trials").put({ ...row, pulled: cursor });
  await tx.done;
  return { added: sorted.fresh.length, conflicts: [...conflicts, ...sorted.conflicts] };
}

async function offerAgain(db: Db, trial: string): Promise<void> {
  const tx = write(db);
  const outbox = tx.objectStore("outbox");
  const there = new Set((await outbox.getAllKeys(span(trial, 0))).map(([, seq]) => seq));
  const missing = (await numbered(tx, trial)).filter(({ seq }) => !there.has(seq));
  await Promise.all(missing.map((one) => outbox.add({ trial, ...one, refused: 0 })));
  const row = await tx.objectStore("trials").get(trial);
  if (row !== undefined) await tx.objectStore("trials").put({ ...row, pulled: 0 });
  await tx.done;
}

async function tidy(db: Db): Promise<void> {
  for (const trial of await db.getAllKeys("trials")) {
    for (let due = true; due;) {
      const tx = write(db);
      const packed = await packOldest(tx, await rowOf(tx, trial));
      due = packed !== undefined;
      if (packed) await tx.objectStore("trials").put(packed);
      await tx.done;
    }
  }
}

function failureOf(error: unknown): WriteFailure | undefined {
  if (!(error instanceof DOMException)) return undefined;
  if (error.name === "QuotaExceededError") return "disk-full";
  if (error.name === "UnknownError") return "disk-error";
  // It closed itself, because another tab needed newer tables.
  if (error.name === "InvalidStateError") return "unreachable";
  return undefined;
}
