import { effect, signal } from "@preact/signals";
import { type Remote, type RemoteFailure, remoteOver, synchronise } from "../../store/browser.ts";
import type { StoredEvent } from "../../trial/index.ts";
import { access, askAccess, askUnder, pairing } from "./access.ts";
import { follow } from "./live.ts";
import { countsBeforeShown, kept, readFurther, theStore, theStores } from "./log-keeper.ts";
import { hearWindows, tellWindows } from "./windows.ts";

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

let counting: Promise<void> = Promise.resolve();

/** Counts what only this device holds, one count after the other: an older one must not be told last. */
function countWaiting(): Promise<void> {
  counting = counting.then(count, count);
  return counting;
}

/** What is kept while it counts is counted by who kept it. */
async function count(): Promise<void> {
  const before = kept.value;
  const { waiting, count: all, refused } = await theStore().outbox(shownFirst);
  if (kept.value !== before) return;
  tell({ waiting: all, first: waiting, refused: refused.length });
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
    const push: Remote["push"] = async (trial, events) => {
      // A server that was set back is offered again what it once had: that is told before the round is over.
      await countWaiting();
      return remote.push(trial, events);
    };
    const outcome = await synchronise(theStore(), { ...remote, push });
    if ((outcome.pulled ?? 0) > 0) await readFurther();
    if (outcome.kind === "synchronised") {
      const last = new Date().toISOString();
      tell({ server: "reached", last });
      otherWorkspace.value = undefined;
      await theStore().drafts.keep(lastKey, last);
      if (access.value.kind === "unknown") await askAccess();
    } else {
      const { reason } = outcome;
      tell({ server: reason === "unreachable" ? "away" : reason });
      if (reason === "no-key") access.value = { kind: "no-key" };
      otherWorkspace.value = outcome.workspace;
    }
    const { waiting } = safety.peek();
    await countWaiting();
    if (waiting !== safety.peek().waiting || (outcome.pulled ?? 0) > 0) tellWindows();
  } catch {
    closed();
  }
}

/** The store closed itself for a newer window; `superseded` says so on the screen. */
function closed(): void {
  tell({ server: "unknown" });
}

/** Between two questions to a server that does not tell its news, or when nothing was heard; ms. */
const usual = 15_000;

/** Keeps trying: after a save, at the server's news, when the network or the page comes back, and by the clock. */
export async function startSynchronising(): Promise<void> {
  const last = await theStore().drafts.recall(lastKey);
  if (typeof last === "string") tell({ last });
  await countWaiting();
  countsBeforeShown(countWaiting);
  const soon = (): void => void synchroniseNow();
  const look = (): void => void countWaiting().then(readFurther).catch(closed);
  hearWindows(look);
  addEventListener("online", soon);
  document.addEventListener("visibilitychange", () => {
    // A window that slept heard nothing.
    look();
    soon();
  });
  setInterval(soon, usual);
  let told = 0;
  effect(() => {
    const fresh = kept.value - told;
    if (fresh === 0) return;
    told = kept.value;
    tell({ waiting: safety.peek().waiting + fresh });
    void countWaiting().then(soon, closed);
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
