import { openBrowserStore, synchronise } from "../../src/store/browser.ts";
import type { Remote } from "../../src/store/browser.ts";
import { project, type StoredEvent } from "../../src/trial/index.ts";
import { same } from "../doors/contract.ts";
import { note, trialId } from "../doors/sample-events.ts";
import { xorshift } from "../kill/random.ts";

/** A long log is kept in packs of many events. Cases that run inside a page. */
let opened = 0;
const fresh = () => `packs ${++opened}`;
const notes = (from: number, count: number, trial = 1): StoredEvent[] =>
  Array.from({ length: count }, (_, i) => note(from + i, { trial }));

/** How often a table holds rows; what stands where is nobody's business but the store's. */
async function rows(name: string, table: string): Promise<number> {
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => {
      resolve(asked.result);
    };
    asked.onerror = () => {
      reject(new Error(asked.error?.message));
    };
  });
  const count = await new Promise<number>((resolve) => {
    const asked = db.transaction(table).objectStore(table).count();
    asked.onsuccess = () => {
      resolve(asked.result);
    };
  });
  db.close();
  return count;
}

/** The store of version 1 as it was released, filled as it filled it. */
async function versionOne(name: string, events: readonly StoredEvent[], refused: string) {
  const db = await new Promise<IDBDatabase>((resolve) => {
    const asked = indexedDB.open(name, 1);
    asked.onupgradeneeded = () => {
      const made = asked.result;
      const table = made.createObjectStore("events", { keyPath: "id" });
      table.createIndex("by-trial", ["trial", "seq"], { unique: true });
      made.createObjectStore("trials", { keyPath: "trial" });
      made.createObjectStore("outbox", { keyPath: ["trial", "seq"] });
      made.createObjectStore("drafts", { keyPath: "key" });
    };
    asked.onsuccess = () => {
      resolve(asked.result);
    };
  });
  const tx = db.transaction(["events", "trials", "outbox", "drafts"], "readwrite");
  const trial = events[0]?.trial ?? "";
  for (const [i, event] of events.entries()) {
    const { id } = event;
    tx.objectStore("events").add({ id, trial, seq: i + 1, event });
    if (i % 3 === 0) {
      tx.objectStore("outbox").add({ trial, seq: i + 1, id, refused: id === refused });
    }
  }
  tx.objectStore("trials").put({ trial, seq: events.length, pulled: 7 });
  tx.objectStore("drafts").put({ key: "reading", value: "85," });
  await new Promise((resolve) => (tx.oncomplete = resolve));
  db.close();
}

export const packCases: readonly { name: string; check: () => Promise<void> }[] = [
  {
    name: "a log is the same however it came: one by one, in batches, twice, from the server",
    check: async () => {
      const random = xorshift(5);
      const below = (n: number): number => Math.floor(random() * n);
      const sizes = [1, 2, 30, 60, 300, 501, 1200];
      const store = await openBrowserStore(fresh());
      const log = new Map<number, StoredEvent[]>([1, 2].map((trial) => [trial, []]));
      let n = 0;
      for (let step = 0; step < 24; step++) {
        const trial = 1 + below(2);
        const mine = log.get(trial) ?? [];
        const repeats = mine.slice(below(mine.length + 1)).slice(0, below(40));
        const batch = notes(n, sizes[below(sizes.length)] ?? 1, trial);
        n += batch.length;
        const all = [...repeats, ...batch];
        if (below(2) === 0) await store.append(all);
        else await store.merge(trialId(trial), { events: all, cursor: n }, 0);
        mine.push(...batch);
      }
      for (const [trial, events] of log) {
        same((await store.read(trialId(trial))).events, events);
        for (const after of [0, 1, 499, 500, 501, below(events.length), events.length]) {
          const part = await store.read(trialId(trial), after);
          same(part, { events: events.slice(after), cursor: Math.max(after, events.length) });
        }
        same(project((await store.read(trialId(trial))).events), project(events));
      }
    },
  },
  {
    name: "what came in small parts is packed in time, and read as before",
    check: async () => {
      const name = fresh();
      const store = await openBrowserStore(name);
      const events = notes(1, 520);
      for (let i = 0; i < 520; i += 40) {
        await store.merge(trialId(1), { events: events.slice(i, i + 40), cursor: i }, 0);
      }
      same((await store.read(trialId(1))).events, events);
      same((await rows(name, "events")) < 100, true);
      same(await rows(name, "packs"), 2);
    },
  },
  {
    name: "a packed event is a duplicate or a conflict as any other",
    check: async () => {
      const store = await openBrowserStore(fresh());
      await store.append(notes(1, 700));
      const known = await store.append([note(3), note(800)]);
      same(known.kind === "appended" && known.duplicates, [note(3).id]);
      const other = note(699, { text: "something else" });
      same(await store.append([note(900), other]), { kind: "refused", conflicts: [other.id] });
      const merged = await store.merge(trialId(1), { events: [other, note(901)], cursor: 5 }, 0);
      same(merged, { added: 1, conflicts: [other.id] });
      const moved = await store.append([note(4, { trial: 2 })]);
      same(moved.kind, "refused");
      same((await store.read(trialId(1))).events.length, 702);
    },
  },
  {
    name: "packed events wait for the server, are refused and are offered again",
    check: async () => {
      const store = await openBrowserStore(fresh());
      const events = notes(1, 1300);
      await store.append(events);
      const first = await store.outbox(3);
      same(first, { waiting: events.slice(0, 3), count: 1300, refused: [] });
      await store.markRefused([note(2).id]);
      await store.acknowledge(events.slice(9, 1100).map(({ id }) => id));
      const left = await store.outbox(1000);
      const waiting = [...events.slice(0, 1), ...events.slice(2, 9), ...events.slice(1100)];
      same(left, { waiting, count: 208, refused: [note(2).id] });
      const pushed: string[] = [];
      const server: Remote = {
        trials: () => Promise.resolve({ kind: "trials", trials: [] }),
        push: (_, batch) => {
          const accepted = batch.map(({ id }) => id);
          pushed.push(...accepted);
          return Promise.resolve({ kind: "appended", accepted, duplicates: [] });
        },
        pull: (_, after) => Promise.resolve({ kind: "log", events: [], cursor: after }),
      };
      await store.offerAgain(trialId(1));
      same((await store.outbox(0)).count, 1299);
      await synchronise(store, server);
      const sent = events.filter(({ id }) => id !== note(2).id).map(({ id }) => id);
      same(pushed, sent);
      same(await store.outbox(5), { waiting: [], count: 0, refused: [note(2).id] });
    },
  },
  {
    name: "a store of version 1 opens, and is packed without a change to what it says",
    check: async () => {
      const name = fresh();
      const events = notes(1, 1700);
      const refused = note(4).id;
      await versionOne(name, events, refused);
      const store = await openBrowserStore(name);
      const says = async () => ({
        log: await store.read(trialId(1)),
        later: await store.read(trialId(1), 1655),
        outbox: await store.outbox(5000),
        pulled: await store.pulled(trialId(1)),
        trials: await store.trials(),
        draft: await store.drafts.recall("reading"),
      });
      const before = await says();
      const waiting = events.filter(({ id }, i) => i % 3 === 0 && id !== refused);
      same(before, {
        log: { events, cursor: 1700 },
        later: { events: events.slice(1655), cursor: 1700 },
        outbox: { waiting, count: waiting.length, refused: [refused] },
        pulled: 7,
        trials: [{ trial: trialId(1), events: 1700 }],
        draft: "85,",
      });
      // Written while the old rows still stand one by one.
      await store.append([note(1701)]);
      await Promise.all([store.tidy(), store.append([note(1702)]), store.tidy()]);
      same((await rows(name, "events")) <= 500, true);
      const after = await says();
      const grown = [...events, note(1701), note(1702)];
      same(after.log, { events: grown, cursor: 1702 });
      same(after.outbox.waiting, [...waiting, note(1701), note(1702)]);
      await store.acknowledge(after.outbox.waiting.map(({ id }) => id));
      same(await store.outbox(1), { waiting: [], count: 0, refused: [refused] });
    },
  },
];
