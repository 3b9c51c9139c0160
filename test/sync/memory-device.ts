import type { AppendOutcome, BrowserStore, StoredLog } from "../../src/store/browser.ts";
import { canonicalText, type StoredEvent } from "../../src/trial/index.ts";

/**
 * A device's store in memory, for simulated networks. The real one does the same in IndexedDB and is held
 * to the same contract in a browser.
 */
export function memoryDevice(): BrowserStore {
  const events = new Map<string, StoredEvent>();
  const outbox = new Map<string, "waiting" | "refused">();
  const pulled = new Map<string, number>();
  const kept = new Map<string, unknown>();
  const ofTrial = (trial: string) => [...events.values()].filter((event) => event.trial === trial);
  const same = (a: StoredEvent, b: StoredEvent) => canonicalText(a) === canonicalText(b);

  const add = (batch: readonly StoredEvent[], own: boolean): AppendOutcome => {
    const first = new Map<string, StoredEvent>();
    const conflicts = new Set<string>();
    for (const event of batch) {
      const known = events.get(event.id) ?? first.get(event.id);
      if (known === undefined) first.set(event.id, event);
      else if (!same(known, event)) conflicts.add(event.id);
    }
    if (own && conflicts.size > 0) return { kind: "refused", conflicts: [...conflicts] };
    for (const [id, event] of first) {
      events.set(id, event);
      if (own) outbox.set(id, "waiting");
    }
    const duplicates = new Set(batch.map(({ id }) => id).filter((id) => !first.has(id)));
    return { kind: "appended", accepted: [...first.keys()], duplicates: [...duplicates] };
  };
  const read = (trial: string, after = 0): StoredLog => {
    const all = ofTrial(trial);
    return { events: all.slice(after), cursor: Math.max(after, all.length) };
  };
  const inOutbox = (as: "waiting" | "refused") =>
    [...outbox].filter(([, state]) => state === as).map(([id]) => id);

  return {
    append: (batch) => Promise.resolve(add(batch, true)),
    read: (trial, after) => Promise.resolve(read(trial, after)),
    trials: () => {
      const ids = [...new Set([...events.values()].map(({ trial }) => trial))].sort();
      return Promise.resolve(ids.map((trial) => ({ trial, events: ofTrial(trial).length })));
    },
    close: () => Promise.resolve(),
    outbox: (most) => {
      const waiting = inOutbox("waiting").flatMap((id) => events.get(id) ?? []);
      const { length: count } = waiting;
      return Promise.resolve({
        waiting: waiting.slice(0, most),
        count,
        refused: inOutbox("refused"),
      });
    },
    acknowledge: (ids) => {
      for (const id of ids) outbox.delete(id);
      return Promise.resolve();
    },
    markRefused: (ids) => {
      for (const id of ids) if (outbox.has(id)) outbox.set(id, "refused");
      return Promise.resolve();
    },
    pulled: (trial) => Promise.resolve(pulled.get(trial) ?? 0),
    merge: (trial, log, after) => {
      const conflicts = log.events.filter((event) => {
        const known = events.get(event.id);
        return known !== undefined && !same(known, event);
      });
      const outcome = add(log.events, false);
      if ((pulled.get(trial) ?? 0) === after) pulled.set(trial, log.cursor);
      const added = outcome.kind === "appended" ? outcome.accepted.length : 0;
      return Promise.resolve({ added, conflicts: conflicts.map(({ id }) => id) });
    },
    offerAgain: (trial) => {
      for (const { id } of ofTrial(trial)) if (!outbox.has(id)) outbox.set(id, "waiting");
      pulled.set(trial, 0);
      return Promise.resolve();
    },
    tidy: () => Promise.resolve(),
    drafts: {
      keep: (key, value) => {
        kept.set(key, value);
        return Promise.resolve();
      },
      recall: (key) => Promise.resolve(kept.get(key)),
      forget: (key) => {
        kept.delete(key);
        return Promise.resolve();
      },
    },
  };
}
