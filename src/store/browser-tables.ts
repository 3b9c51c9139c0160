import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from "idb";
import type { StoredEvent } from "../trial/index.ts";

/** What the device keeps. Version 2. */
export interface BrowserTables extends DBSchema {
  /** The newest events of each trial, one by one; what stands before them is in `packs`. */
  events: {
    key: string;
    value: { id: string; trial: string; seq: number; event: StoredEvent };
    indexes: { "by-trial": [string, number] };
  };
  /** Events `first` to `last` of a trial as one JSON text: a long log is read in a few pieces. */
  packs: {
    key: [string, number];
    value: { trial: string; first: number; last: number; text: string };
  };
  /** Ids of the events of each pack, in its order. Apart from the texts, which are read without them. */
  packed: {
    key: [string, number];
    value: { trial: string; last: number; ids: string[] };
    indexes: { "by-id": string };
  };
  trials: {
    key: string;
    /** `seq`: newest number here; up to `packed` (0 without it) in packs. `pulled`: the server's cursor
     * up to which its events are here. */
    value: { trial: string; seq: number; pulled: number; packed?: number };
  };
  outbox: {
    key: [string, number];
    /** An event that the server has not acknowledged; `refused` is 1 when it has a different one of that id. */
    value: { trial: string; seq: number; id: string; refused: 0 | 1 };
    indexes: { "by-id": string; "by-refused": number };
  };
  drafts: { key: string; value: { key: string; value: unknown } };
}

export type Table = StoreNames<BrowserTables>;
export type TrialRow = BrowserTables["trials"]["value"];
/** A transaction of one mode over all tables of the log. */
export type LogTx<Mode extends IDBTransactionMode> = IDBPTransaction<BrowserTables, Table[], Mode>;
export type AnyTx = LogTx<"readonly"> | LogTx<"readwrite">;

export const version = 2;

/** All events of a trial after a number, up to another. */
export const span = (trial: string, after: number, upTo = Infinity): IDBKeyRange =>
  IDBKeyRange.bound([trial, after], [trial, upTo], true);

/** Brings the tables of any older version up to date. What it held is packed later, by `tidy`. */
export async function upgrade(
  db: IDBPDatabase<BrowserTables>,
  from: number,
  tx: LogTx<"versionchange">,
): Promise<void> {
  if (from < 1) {
    const events = db.createObjectStore("events", { keyPath: "id" });
    events.createIndex("by-trial", ["trial", "seq"], { unique: true });
    db.createObjectStore("trials", { keyPath: "trial" });
    db.createObjectStore("outbox", { keyPath: ["trial", "seq"] });
    db.createObjectStore("drafts", { keyPath: "key" });
  }
  if (from < 2) {
    db.createObjectStore("packs", { keyPath: ["trial", "last"] });
    const packed = db.createObjectStore("packed", { keyPath: ["trial", "last"] });
    packed.createIndex("by-id", "ids", { unique: true, multiEntry: true });
    const outbox = tx.objectStore("outbox");
    outbox.createIndex("by-id", "id", { unique: true });
    outbox.createIndex("by-refused", "refused");
    // Version 1 wrote true and false, which no index can hold.
    for (let at = await outbox.openCursor(); at; at = await at.continue()) {
      await at.update({ ...at.value, refused: at.value.refused ? 1 : 0 });
    }
  }
}
