import type { EventStore } from "../../src/store/index.ts";
import type { StoredEvent } from "../../src/trial/index.ts";
import { eventId, note, trialId } from "./sample-events.ts";

/**
 * What every store must do, whatever holds the log. Free of Node and of the test runner, because the
 * same cases run inside a browser.
 */
export interface ContractCase {
  readonly name: string;
  readonly check: (store: EventStore, reopen: () => Promise<EventStore>) => Promise<void>;
}

export const contract: readonly ContractCase[] = [
  {
    name: "an empty store has no trials, and an unknown trial no events",
    check: async (store) => {
      same(await store.trials(), []);
      same(await store.read(trialId(1)), { events: [], cursor: 0 });
      same(await store.append([]), { kind: "appended", accepted: [], duplicates: [] });
    },
  },
  {
    name: "gives back what was appended, field by field",
    check: async (store) => {
      const odd = note(1, { text: 'ünï "quoted"\n\u0000 𝒳 <b>' });
      await store.append([odd, note(2)]);
      same(await store.read(trialId(1)), { events: [odd, note(2)], cursor: 2 });
    },
  },
  {
    name: "the same event twice is taken once, in one batch or in two",
    check: async (store) => {
      same(await store.append([note(1), note(1)]), appended([1], []));
      same(await store.append([note(1), note(2)]), appended([2], [1]));
      same((await store.read(trialId(1))).events, [note(1), note(2)]);
    },
  },
  {
    name: "the order of keys is not content",
    check: async (store) => {
      await store.append([note(1)]);
      const { body, v, ...rest } = note(1);
      const turned = { body, v, ...rest } as StoredEvent;
      same(await store.append([turned]), appended([], [1]));
    },
  },
  {
    name: "an id with different content is refused by name, and its batch leaves nothing behind",
    check: async (store) => {
      await store.append([note(1)]);
      const other = note(1, { text: "something else" });
      const refusal = { kind: "refused", conflicts: [eventId(1)] };
      same(await store.append([note(2), other, note(3, { trial: 2 })]), refusal);
      same(await store.trials(), [{ trial: trialId(1), events: 1 }]);
      same((await store.read(trialId(1))).events, [note(1)]);
      const twice = [note(7), note(7, { text: "something else" })];
      same(await store.append(twice), { kind: "refused", conflicts: [eventId(7)] });
    },
  },
  {
    name: "the same id in another trial is a conflict, not a second event",
    check: async (store) => {
      await store.append([note(1)]);
      const moved = note(1, { trial: 2 });
      same(await store.append([moved]), { kind: "refused", conflicts: [eventId(1)] });
    },
  },
  {
    name: "a cursor gives what came later, whatever order events were delivered in",
    check: async (store) => {
      await store.append([note(5), note(3)]);
      const first = await store.read(trialId(1));
      await store.append([note(9, { trial: 2 })]);
      await store.append([note(1), note(4)]);
      const second = await store.read(trialId(1), first.cursor);
      same(second.events, [note(1), note(4)]);
      same(await store.read(trialId(1), second.cursor), { events: [], cursor: second.cursor });
    },
  },
  {
    name: "several trials in one batch, listed by id with their counts",
    check: async (store) => {
      await store.append([note(1, { trial: 2 }), note(2), note(3, { trial: 2 })]);
      const counts = [
        { trial: trialId(1), events: 1 },
        { trial: trialId(2), events: 2 },
      ];
      same(await store.trials(), counts);
    },
  },
  {
    name: "appends that run at once all arrive, each once",
    check: async (store) => {
      const batches = Array.from({ length: 20 }, (_, i) => [note(i), note(i + 1), note(100 + i)]);
      const outcomes = await Promise.all(batches.map((batch) => store.append(batch)));
      same(new Set(outcomes.map(({ kind }) => kind)).size, 1);
      const { events, cursor } = await store.read(trialId(1));
      same([events.length, new Set(events.map(({ id }) => id)).size, cursor], [41, 41, 41]);
    },
  },
  {
    name: "takes a long batch and an event of some megabytes",
    check: async (store) => {
      const many = Array.from({ length: 3000 }, (_, i) => note(i));
      const long = note(9000, { text: "x".repeat(4_000_000) });
      same((await store.append([...many, long])).kind, "appended");
      same((await store.read(trialId(1), 3000)).events, [long]);
    },
  },
  {
    name: "everything is there after closing and opening again",
    check: async (store, reopen) => {
      await store.append([note(1), note(2)]);
      await store.close();
      const again = await reopen();
      same(await again.append([note(2), note(3)]), appended([3], [2]));
      same((await again.read(trialId(1))).events, [note(1), note(2), note(3)]);
      await again.close();
    },
  },
];

function appended(accepted: number[], duplicates: number[]) {
  const ids = (numbers: number[]) => numbers.map((n) => eventId(n));
  return { kind: "appended", accepted: ids(accepted), duplicates: ids(duplicates) };
}

/** Throws, with both sides, unless two values are equal apart from the order of keys. */
export function same(found: unknown, expected: unknown): void {
  const [a, b] = [text(found), text(expected)];
  if (a !== b) throw new Error(`found    ${a.slice(0, 2000)}\nexpected ${b.slice(0, 2000)}`);
}

function text(value: unknown): string {
  return JSON.stringify(value, (_, item: unknown) =>
    typeof item === "object" && item !== null && !Array.isArray(item)
      ? Object.fromEntries(Object.entries(item).sort(([x], [y]) => (x < y ? -1 : 1)))
      : item,
  );
}
