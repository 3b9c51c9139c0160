import type { DBSchema, IDBPDatabase } from "idb";
import type { StoredEvent } from "../trial/index.ts";

/** What the device keeps. Version 1. */
export interface BrowserTables extends DBSchema {
  events: {
    key: string;
    value: { id: string; trial: string; seq: number; event: StoredEvent };
    indexes: { "by-trial": [string, number] };
  };
  trials: {
    key: string;
    /** `seq`: newest number here. `pulled`: the server's cursor up to which its events are here. */
    value: { trial: string; seq: number; pulled: number };
  };
  outbox: {
    key: [string, number];
    /** An event that the server has not acknowledged; `refused` when it has a different one of that id. */
    value: { trial: string; seq: number; id: string; refused: boolean };
  };
  drafts: { key: string; value: { key: string; value: unknown } };
}

export const version = 1;

/** Brings the tables of any older version up to date. */
export function upgrade(db: IDBPDatabase<BrowserTables>, from: number): void {
  if (from < 1) {
    const events = db.createObjectStore("events", { keyPath: "id" });
    events.createIndex("by-trial", ["trial", "seq"], { unique: true });
    db.createObjectStore("trials", { keyPath: "trial" });
    db.createObjectStore("outbox", { keyPath: ["trial", "seq"] });
    db.createObjectStore("drafts", { keyPath: "key" });
  }
}
