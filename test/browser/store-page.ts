import { openBrowserStore, type Remote, remoteOver, synchronise } from "../../src/store/browser.ts";
import { type ContractCase, contract, same } from "../doors/contract.ts";
import { note, trialId } from "../doors/sample-events.ts";
import { packCases } from "./store-packs.ts";

/**
 * Runs inside a page. The contract of every store, then what only a device's store does, against a real
 * server at the page's own address.
 */
let opened = 0;
const newStore = () => openBrowserStore(`test ${++opened}`);
const server = remoteOver((request) => fetch(request), "");
/** The trial of a case, so that cases can share one server. */
let trials = 100;

const deviceCases: readonly { name: string; check: () => Promise<void> }[] = [
  {
    name: "drafts are kept until they are forgotten, also over a restart",
    check: async () => {
      const store = await newStore();
      await store.drafts.keep("reading", { value: "85,", unit: "psig" });
      await store.close();
      const again = await openBrowserStore(`test ${opened}`);
      same(await again.drafts.recall("reading"), { value: "85,", unit: "psig" });
      await again.drafts.forget("reading");
      same((await again.drafts.recall("reading")) === undefined, true);
    },
  },
  {
    name: "an older tab closes for a newer one",
    check: async () => {
      let told = false;
      await openBrowserStore("superseded", () => (told = true));
      const newer = indexedDB.open("superseded", 3);
      await new Promise<void>((resolve, reject) => {
        newer.onsuccess = () => {
          newer.result.close();
          resolve();
        };
        newer.onblocked = () => {
          reject(new Error("blocked"));
        };
      });
      same(told, true);
    },
  },
  {
    name: "a store that closed itself says that nothing was kept",
    check: async () => {
      const store = await newStore();
      await store.close();
      same(await store.append([note(1)]), { kind: "failed", reason: "unreachable" });
    },
  },
  {
    name: "what a slow window fetched does not move a cursor that another has set back",
    check: async () => {
      const [trial, store] = [++trials, await newStore()];
      const [first, second, third] = [1, 2, 3].map((n) => note(trial * 1000 + n, { trial }));
      if (!first || !second || !third) throw new Error("three notes");
      await store.merge(trialId(trial), { events: [first, second], cursor: 2 }, 0);
      await store.offerAgain(trialId(trial));
      const late = await store.merge(trialId(trial), { events: [third], cursor: 3 }, 2);
      same([late.added, await store.pulled(trialId(trial))], [1, 0]);
    },
  },
  {
    name: "two devices and a server come to hold the union",
    check: async () => {
      const trial = ++trials;
      const n = trial * 1000;
      const [a, b] = [await newStore(), await newStore()];
      await a.append([note(n + 1, { trial }), note(n + 2, { trial })]);
      await b.append([note(n + 3, { trial }), note(n + 2, { trial })]);
      same((await a.outbox(1)).count, 2);
      const first = await synchronise(a, server);
      same(first.kind === "synchronised" && first.pushed, 2);
      const second = await synchronise(b, server);
      same(second.kind === "synchronised" && [second.pushed, second.refused], [1, []]);
      await synchronise(a, server);
      const ids = async (store: typeof a) =>
        (await store.read(trialId(trial))).events.map(({ id }) => id).sort();
      same(await ids(a), await ids(b));
      same((await ids(a)).length, 3);
      same(await a.outbox(9), { waiting: [], count: 0, refused: [] });
      const idle = await synchronise(a, server);
      same(idle.kind === "synchronised" && [idle.pushed, idle.pulled], [0, 0]);
    },
  },
  {
    name: "what the server refuses is named and holds up nothing else; neither side loses its own",
    check: async () => {
      const trial = ++trials;
      const n = trial * 1000;
      const [a, b] = [await newStore(), await newStore()];
      await a.append([note(n + 1, { trial })]);
      await synchronise(a, server);
      const own = note(n + 1, { trial, text: "something else" });
      await b.append([own, note(n + 2, { trial })]);
      const outcome = await synchronise(b, server);
      same(outcome.kind === "synchronised" && outcome.refused, [own.id]);
      same(outcome.kind === "synchronised" && outcome.conflicts, [own.id]);
      same((await b.read(trialId(trial))).events[0], own);
      same((await b.outbox(9)).count, 0);
    },
  },
  {
    name: "no connection: interrupted, everything still waits and goes later",
    check: async () => {
      const trial = ++trials;
      const store = await newStore();
      await store.append([note(trial * 1000, { trial })]);
      const away = remoteOver(() => Promise.reject(new Error("away")), "");
      const outcome = await synchronise(store, away);
      same(outcome, { kind: "interrupted", reason: "unreachable", waiting: 1 });
      const later = await synchronise(store, server);
      same(later.kind === "synchronised" && later.pushed, 1);
    },
  },
  {
    name: "an answer that is not ours is not taken for one",
    check: async () => {
      const store = await newStore();
      const portal = remoteOver(() => Promise.resolve(new Response("<html>log in</html>")), "");
      const outcome = await synchronise(store, portal);
      same(outcome, { kind: "interrupted", reason: "not-understood", waiting: 0 });
    },
  },
  {
    name: "a server that was set back is given everything again",
    check: async () => {
      const trial = ++trials;
      const n = trial * 1000;
      const store = await newStore();
      await store.append([note(n + 1, { trial }), note(n + 2, { trial })]);
      await synchronise(store, server);
      await synchronise(store, server);
      const pushed: string[] = [];
      const setBack: Remote = {
        trials: () => Promise.resolve({ kind: "trials", trials: [] }),
        push: (_, events) => {
          const accepted = events.map(({ id }) => id);
          pushed.push(...accepted);
          return Promise.resolve({ kind: "appended", accepted, duplicates: [] });
        },
        pull: (_, after) => Promise.resolve({ kind: "log", events: [], cursor: after }),
      };
      await synchronise(store, setBack);
      same(pushed.length >= 2 && pushed.includes(note(n + 1).id), true);
    },
  },
  {
    name: "a long outbox goes in several batches",
    check: async () => {
      const trial = ++trials;
      const store = await newStore();
      const events = Array.from({ length: 450 }, (_, i) => note(trial * 1000 + i, { trial }));
      await store.append(events);
      const outcome = await synchronise(store, server);
      same(outcome.kind === "synchronised" && outcome.pushed, 450);
    },
  },
];

async function runContract({ check }: ContractCase) {
  const store = await newStore();
  const name = `test ${opened}`;
  await check(store, () => openBrowserStore(name));
  await store.close();
}

const cases = new Map<string, () => Promise<void>>([
  ...contract.map((one) => [one.name, () => runContract(one)] as const),
  ...[...deviceCases, ...packCases].map(({ name, check }) => [name, check] as const),
]);

/** Undefined when the case holds, else what it found. */
async function runCase(name: string): Promise<string | undefined> {
  try {
    await cases.get(name)?.();
    return undefined;
  } catch (error) {
    return error instanceof Error ? `${error.message}\n${error.stack ?? ""}` : String(error);
  }
}

Object.assign(globalThis, { caseNames: [...cases.keys()], runCase });
