import { effect, signal } from "@preact/signals";
import { type RemoteFailure, remoteOver, synchronise } from "../../store/browser.ts";
import type { StoredEvent } from "../../trial/index.ts";
import { access, askAccess, askUnder, pairing } from "./access.ts";
import { follow } from "./live.ts";
import { kept, readFurther, theStore, theStores } from "./log-keeper.ts";

/** How the log of this device stands towards the server. */
export interface Safety {
  /** Entries that only this device holds. */
  readonly waiting: number;
  /** The first of them, for a list. */
  readonly first: readonly StoredEvent[];
  readonly server: "unknown" | "reached" | "away" | Exclude<RemoteFailure, "unreachable">;
  /** Entries that the server refuses for ever. */
  readonly refused: number;
  /** When both sides last held the same; ISO instant. */
  readonly last?: string;
  /** The server tells at once what others write. */
  readonly live: boolean;
}

export const safety = signal<Safety>({
  waiting: 0,
  first: [],
  server: "unknown",
  refused: 0,
  live: false,
});

/** The server's workspace, when this log belongs to another. */
export const otherWorkspace = signal<string | undefined>(undefined);

/** Opens the log of the server's workspace; the one that was open stays on this device. */
export async function openServersLog(): Promise<void> {
  const id = otherWorkspace.value;
  if (id === undefined) return;
  await theStores().choose({ id, name: access.value.workspace ?? id });
  location.reload();
}

const shownFirst = 20;
const lastKey = "last synchronised";

function tell(change: Partial<Safety>): void {
  safety.value = { ...safety.peek(), ...change };
}

/** Counts what only this device holds. What is kept while it counts is counted by who kept it. */
async function countWaiting(): Promise<void> {
  const before = kept.value;
  const { waiting, count, refused } = await theStore().outbox(shownFirst);
  if (kept.value !== before) return;
  tell({ waiting: count, first: waiting, refused: refused.length });
}

let running: Promise<void> | undefined;
let next: Promise<void> | undefined;

/** Exchanges entries with the server. One round at a time; one more waits for all that ask meanwhile. */
export function synchroniseNow(): Promise<void> {
  if (running === undefined) {
    running = oneRound().finally(() => {
      running = undefined;
    });
    return running;
  }
  next ??= running.then(() => {
    next = undefined;
    return synchroniseNow();
  });
  return next;
}

async function oneRound(): Promise<void> {
  try {
    // One key for the whole round: what began for one workspace never ends in another.
    const key = pairing.value?.key;
    const remote = remoteOver((request) => askUnder(key, request), "");
    const outcome = await synchronise(theStore(), remote);
    if ((outcome.pulled ?? 0) > 0) await readFurther();
    if (outcome.kind === "synchronised") {
      const last = new Date().toISOString();
      tell({ server: "reached", last });
      await theStore().drafts.keep(lastKey, last);
      if (access.value.kind === "unknown") await askAccess();
    } else {
      const { reason } = outcome;
      tell({ server: reason === "unreachable" ? "away" : reason });
      if (reason === "no-key") access.value = { kind: "no-key" };
      otherWorkspace.value = outcome.workspace;
    }
    await countWaiting();
  } catch {
    // The store closed itself for a newer window; `superseded` says so on the screen.
    tell({ server: "unknown" });
  }
}

/** Between two questions to a server that does not tell its news, or when nothing was heard; ms. */
const usual = 15_000;

/** Keeps trying: after a save, at the server's news, when the network or the page comes back, and by the clock. */
export async function startSynchronising(): Promise<void> {
  const last = await theStore().drafts.recall(lastKey);
  if (typeof last === "string") tell({ last });
  await countWaiting();
  const soon = (): void => void synchroniseNow();
  addEventListener("online", soon);
  document.addEventListener("visibilitychange", soon);
  setInterval(soon, usual);
  let told = 0;
  effect(() => {
    const fresh = kept.value - told;
    if (fresh === 0) return;
    told = kept.value;
    tell({ waiting: safety.peek().waiting + fresh });
    void countWaiting().then(soon);
  });
  // A new key opens a new line to the server's news.
  effect(() => {
    const key = pairing.value?.key;
    return follow(key, {
      onNews: soon,
      onState: (live) => {
        tell({ live });
      },
    });
  });
  soon();
}
