import { createApp, eventsOf, type ServerDeps, type Sharing } from "../../src/server/index.ts";
import {
  type LogStore,
  offerPairing,
  openSqliteStore,
  openWorkspace,
  type Role,
} from "../../src/store/index.ts";
import { plainCalculation } from "./plain-calculation.ts";

export const shopAddress = "https://shop.example";
export const operatorSecret = "the-operators-own-long-secret";
/** SHA-256 of it, as `printf %s … | sha256sum` gives it. */
const operatorHash = "b09db988bf32a85ab37f3793fdd0aab14bb737044ba9759d22543a5056f8adff";

/** A device in some network. */
export const stranger = { address: "198.51.100.7" };

/** A server for several shops on a log in memory, with a clock of the test's own. */
export async function sharedServer(
  change: Partial<Sharing> = {},
  given: { store?: LogStore; deps?: Partial<ServerDeps> } = {},
) {
  const store = given.store ?? (await inMemory());
  const faults: unknown[] = [];
  const clock = { now: Date.parse("2026-06-14T08:00:00Z") };
  const handle = createApp({
    store,
    ...plainCalculation,
    report: async (log) => `<!doctype html><p>${(await eventsOf(log)).length} events</p>`,
    site: new Map(),
    sharing: {
      address: () => shopAddress,
      names: ["shop.example"],
      trustLoopback: false,
      behindProxy: false,
      operatorHash,
      ...change,
    },
    now: () => clock.now,
    onFault: (error) => faults.push(error),
    ...given.deps,
  });
  /** A request from another machine, with a key or without. */
  const ask = (
    method: string,
    path: string,
    {
      key,
      body,
      peer = stranger,
    }: { key?: string; body?: unknown; peer?: { address: string } } = {},
  ) => {
    const headers = {
      "content-type": "application/json",
      ...(key === undefined ? {} : { authorization: `Bearer ${key}` }),
    };
    const text = body === undefined ? {} : { body: JSON.stringify(body) };
    return handle(new Request(shopAddress + path, { method, headers, ...text }), peer);
  };
  const pair = async (workspace: string, role: Role, name = `a ${role}`) => {
    const { code } = await offerPairing(
      store.access,
      { workspace, role, name },
      new Date(clock.now),
    );
    // Each from its own address: one address may try only so often.
    const peer = { address: `203.0.113.${++pairs % 250}` };
    const answer = await ask("POST", "/api/pairings/redeem", {
      body: { code, device: name },
      peer,
    });
    return (await answer.json()) as { key: string; device: { id: string } };
  };
  let pairs = 0;
  const shop = async (name: string) => {
    const { workspace } = await openWorkspace(store.access, name, new Date(clock.now));
    const owner = await pair(workspace.id, "owner");
    return { id: workspace.id, owner: owner.key, ownerDevice: owner.device.id };
  };
  return { handle, store, ask, pair, shop, clock, faults };
}

async function inMemory(): Promise<LogStore> {
  const opened = await openSqliteStore(":memory:");
  if (opened.kind !== "opened") throw new Error(opened.detail);
  return opened.store;
}
