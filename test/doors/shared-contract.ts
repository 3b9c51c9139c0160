import { hashOfSecret, type LogStore, offerPairing } from "../../src/store/index.ts";
import { same } from "./contract.ts";
import { note, trialId } from "./sample-events.ts";

/** What a database for several shops must do, whichever it is. */
export interface SharedCase {
  readonly name: string;
  readonly check: (
    store: LogStore,
    more: { readonly openAgain: () => Promise<LogStore> },
  ) => Promise<void>;
}

const now = new Date("2026-06-14T08:00:00Z");
const later = (minutes: number) => new Date(now.getTime() + minutes * 60_000);
const workspace = (id: string) => ({ id, name: id, epoch: "1", created: now.toISOString() });
const device = (n: number, name = "phone") => ({
  id: `device-${n}`,
  name,
  keyHash: hashOfSecret(`key ${n}`),
});

export const sharedContract: readonly SharedCase[] = [
  {
    name: "a long batch is taken whole or not at all, whatever comes in between, and its chain is sound",
    check: async (store) => {
      const long = Array.from({ length: 5100 }, (_, i) => note(i));
      const others = async () => {
        // Each holds one of the long batch's own events.
        for (let k = 0; k < 10; k++) await store.append([note(100 * k), note(9000 + k)]);
      };
      const [outcome] = await Promise.all([store.append(long), others()]);
      same(outcome.kind, "appended");
      const { events, cursor } = await store.read(trialId(1));
      same([cursor, new Set(events.map(({ id }) => id)).size], [5110, 5110]);
      const again = await store.append(long);
      same(again.kind === "appended" && again.duplicates.length, 5100);
      const fresh = Array.from({ length: 5100 }, (_, i) => note(10_000 + i, { trial: 2 }));
      const other = note(3, { text: "something else" });
      same(await store.append([...fresh, other]), { kind: "refused", conflicts: [other.id] });
      same(await store.trials(), [{ trial: trialId(1), events: 5110 }]);
      for await (const { kind } of store.verify()) same(kind, "sound");
    },
  },
  {
    name: "workspaces hold the same trial and the same ids without seeing each other",
    check: async (store) => {
      const [a, b] = [store.in("a"), store.in("b")];
      await store.access.keepWorkspace(workspace("a"));
      await store.access.keepWorkspace(workspace("b"));
      await a.append([note(1), note(2)]);
      same(await b.read(trialId(1)), { events: [], cursor: 0 });
      same(await b.trials(), []);
      same((await b.append([note(1, { text: "their own" })])).kind, "appended");
      same((await a.read(trialId(1))).events, [note(1), note(2)]);
      same((await b.read(trialId(1))).events, [note(1, { text: "their own" })]);
      same(await store.trials(), []);
      same(await a.append([note(1, { text: "their own" })]), {
        kind: "refused",
        conflicts: [note(1).id],
      });
    },
  },
  {
    name: "batches of several workspaces at once: each taken or refused by itself",
    check: async (store) => {
      await store.access.keepWorkspace(workspace("a"));
      await store.append([note(1)]);
      const outcomes = await Promise.all([
        store.append([note(1, { text: "other" }), note(2)]),
        store.append([note(3)]),
        store.in("a").append([note(1, { text: "other" })]),
        store.append([note(3, { text: "other" })]),
        store.append([note(3), note(4)]),
      ]);
      const kinds = outcomes.map(({ kind }) => kind);
      same(kinds, ["refused", "appended", "appended", "refused", "appended"]);
      same((await store.read(trialId(1))).events, [note(1), note(3), note(4)]);
    },
  },
  {
    name: "an unknown workspace takes nothing",
    check: async (store) => {
      const outcome = await store
        .in("none")
        .append([note(1)])
        .catch(() => ({ kind: "threw" }));
      same(outcome.kind === "appended", false);
      same((await store.append([note(1)])).kind, "appended");
    },
  },
  {
    name: "the chain of every trial verifies, and an altered row does not",
    check: async (store) => {
      await store.append([note(1), note(2), note(3, { trial: 2 })]);
      await Promise.all([store.append([note(4)]), store.append([note(5, { trial: 2 })])]);
      const verdicts = [];
      for await (const verdict of store.verify()) verdicts.push(verdict);
      same(
        verdicts.map((one) => [one.trial, one.kind, one.kind === "sound" && one.events]),
        [
          [trialId(1), "sound", 3],
          [trialId(2), "sound", 2],
        ],
      );
    },
  },
  {
    name: "a code pairs one device, once, and in time",
    check: async (store) => {
      const { access } = store;
      const offer = { workspace: "home", role: "tester", name: "bay 1" } as const;
      const { code, expires } = await offerPairing(access, offer, now);
      same(expires, later(10).toISOString());
      const hash = hashOfSecret(code.replaceAll("-", ""));
      const tries = Array.from({ length: 5 }, (_, n) =>
        access.redeem(hash, later(9).toISOString(), device(n)),
      );
      const made = (await Promise.all(tries)).filter((one) => one !== undefined);
      same(made.length, 1);
      same(made[0]?.role, "tester");
      const second = await offerPairing(access, offer, now);
      const late = hashOfSecret(second.code.replaceAll("-", ""));
      same((await access.redeem(late, later(10).toISOString(), device(9))) === undefined, true);
    },
  },
  {
    name: "a revoked key opens nothing, at once and for every process",
    check: async (store, { openAgain }) => {
      const { access } = store;
      const other = await openAgain();
      const row = {
        ...device(1),
        workspace: "home",
        role: "owner",
        revoked: null,
        lastSeen: null,
      } as const;
      await access.keepDevice({ ...row, created: now.toISOString() });
      same((await other.access.deviceOf(device(1).keyHash))?.id, "device-1");
      same(await access.revoke("elsewhere", "device-1", now.toISOString()), false);
      same(await access.revoke("home", "device-1", now.toISOString()), true);
      same((await other.access.deviceOf(device(1).keyHash)) === undefined, true);
      const [listed] = await access.devices("home");
      same(listed?.revoked, now.toISOString());
      await other.close();
    },
  },
  {
    name: "when a device was last seen is told at once, and kept at the end",
    check: async (store, { openAgain }) => {
      const seenOf = async (from: LogStore) =>
        (await from.access.devices("home")).map(({ lastSeen }) => lastSeen);
      for (const n of [1, 2]) {
        const row = { ...device(n), workspace: "home", role: "tester", revoked: null } as const;
        await store.access.keepDevice({ ...row, created: now.toISOString(), lastSeen: null });
      }
      same(await seenOf(store), [null, null]);
      store.access.saw("device-1", later(1).toISOString());
      store.access.saw("device-1", later(2).toISOString());
      same(await seenOf(store), [later(2).toISOString(), null]);
      await store.close();
      const again = await openAgain();
      same(await seenOf(again), [later(2).toISOString(), null]);
      await again.close();
    },
  },
];
