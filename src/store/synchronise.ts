import type { StoredEvent } from "../trial/index.ts";
import type { BrowserStore } from "./browser-store.ts";
import { belongsTo } from "./claim.ts";
import type { AppendOutcome, StoredLog, StoredTrial } from "./port.ts";

/**
 * - `unreachable`: no answer.
 * - `not-understood`: an answer that this version cannot read.
 * - `cannot-write`: the server could not keep the events now.
 * - `no-key`: the server knows no key of this device, or took it back.
 * - `may-not-write`: the device may read here, and no more.
 * - `other-workspace`: it serves another workspace than the one whose log this is; nothing was exchanged.
 */
export type RemoteFailure =
  | "unreachable"
  | "not-understood"
  | "cannot-write"
  | "no-key"
  | "may-not-write"
  | "other-workspace";
interface Failed {
  readonly kind: "failed";
  readonly reason: RemoteFailure;
}

/** A server's store as a device sees it. */
export interface Remote {
  /** `epoch` changes when the server's log was set back to an older copy. */
  trials(): Promise<
    | {
        readonly kind: "trials";
        readonly trials: readonly StoredTrial[];
        readonly epoch?: string | undefined;
        /** Id of the workspace that it serves to this device. */
        readonly workspace?: string | undefined;
      }
    | Failed
  >;
  push(
    trial: string,
    events: readonly StoredEvent[],
  ): Promise<Exclude<AppendOutcome, { kind: "failed" }> | Failed>;
  /** `more`: the answer ends before the log does; ask again from its cursor. */
  pull(
    trial: string,
    after: number,
  ): Promise<({ readonly kind: "log"; readonly more?: boolean } & StoredLog) | Failed>;
}

/**
 * - `synchronised`: both sides hold the union, but for `refused` (the server has another event of that
 *   id) and `conflicts` (this device has). Neither side loses its own.
 * - `interrupted`: what was done stays done; `waiting` events are still to be sent. Try again later.
 */
export type SynchroniseOutcome =
  | {
      readonly kind: "synchronised";
      readonly pushed: number;
      readonly pulled: number;
      readonly refused: readonly string[];
      readonly conflicts: readonly string[];
    }
  | {
      readonly kind: "interrupted";
      readonly reason: RemoteFailure;
      readonly waiting: number;
      /** How many events came all the same; absent when none was asked for. */
      readonly pulled?: number;
      /** The server's, where the reason is that it is another. */
      readonly workspace?: string;
    };

/** A push holds at most so many events, and so many characters unless one event alone is longer. */
const batchEvents = 200;
const batchCharacters = 2_000_000;
/** Waiting events in memory at a time. */
const mostRead = 2_000;

/**
 * Makes the device and a server hold the same events: sends the outbox, then fetches what is new.
 * A union of sets: nothing is overwritten, order and repetition change nothing, and it may stop anywhere.
 */
export async function synchronise(
  store: BrowserStore,
  remote: Remote,
): Promise<SynchroniseOutcome> {
  const interrupted = async (failure: Failed) =>
    ({
      kind: "interrupted",
      reason: failure.reason,
      waiting: (await store.outbox(0)).count,
    }) as const;

  const theirs = await remote.trials();
  if (theirs.kind === "failed") return interrupted(theirs);
  const { workspace } = theirs;
  if (workspace !== undefined && !(await belongsTo(store, workspace))) {
    return { ...(await interrupted({ kind: "failed", reason: "other-workspace" })), workspace };
  }
  await offerWhatTheyLost(store, theirs);
  const pushed = await pushAll(store, remote);
  // A device that may only read still follows what the others write.
  const mayGoOn = pushed.kind === "pushed" || pushed.reason === "may-not-write";
  if (pushed.kind === "failed" && !mayGoOn) return interrupted(pushed);
  const pulled = await pullAll(store, remote, { theirs: theirs.trials, sent: pushed.trials });
  if (pulled.kind === "failed") return interrupted(pulled);
  if (pushed.kind === "failed") return { ...(await interrupted(pushed)), pulled: pulled.count };
  const { refused } = await store.outbox(0);
  return {
    kind: "synchronised",
    pushed: pushed.count,
    pulled: pulled.count,
    refused,
    conflicts: pulled.conflicts,
  };
}

/** Where the device keeps the epoch of the server's log, among its drafts. */
const epochKey = "server's epoch";

/**
 * A server that holds fewer events than it sent us before was set back: an older copy, a new file. It may
 * have grown past that number since; then its epoch tells. It is kept last: when something comes between,
 * the next round offers everything again, and repeats change nothing.
 */
async function offerWhatTheyLost(
  store: BrowserStore,
  {
    trials,
    epoch,
  }: { readonly trials: readonly StoredTrial[]; readonly epoch?: string | undefined },
) {
  const known = epoch === undefined ? undefined : await store.drafts.recall(epochKey);
  const setBack = known !== undefined && known !== epoch;
  const counts = new Map(trials.map(({ trial, events }) => [trial, events]));
  for (const { trial } of await store.trials()) {
    const fewer = (counts.get(trial) ?? 0) < (await store.pulled(trial));
    if (setBack || fewer) await store.offerAgain(trial);
  }
  if (epoch !== undefined && known !== epoch) await store.drafts.keep(epochKey, epoch);
}

async function pushAll(store: BrowserStore, remote: Remote) {
  const trials = new Set<string>();
  let count = 0;
  for (;;) {
    const { waiting } = await store.outbox(mostRead);
    if (waiting.length === 0) return { kind: "pushed", count, trials } as const;
    for (const batch of batches(waiting)) {
      for (const { trial } of batch) trials.add(trial);
      const outcome = await pushBatch(store, remote, batch);
      if (outcome.kind === "failed") return { ...outcome, trials };
      count += outcome.count;
    }
  }
}

/** Refused events are set aside so that they do not hold up the others for ever. */
async function pushBatch(store: BrowserStore, remote: Remote, batch: readonly StoredEvent[]) {
  let rest = batch;
  while (rest[0] !== undefined) {
    const outcome = await remote.push(rest[0].trial, rest);
    if (outcome.kind === "failed") return outcome;
    if (outcome.kind === "appended") {
      await store.acknowledge(rest.map(({ id }) => id));
      return { kind: "pushed", count: outcome.accepted.length } as const;
    }
    const refused = new Set(outcome.conflicts);
    const remaining = rest.filter(({ id }) => !refused.has(id));
    // A refusal that names none of ours would repeat for ever.
    if (remaining.length === rest.length)
      return { kind: "failed", reason: "not-understood" } as const;
    await store.markRefused(outcome.conflicts);
    rest = remaining;
  }
  return { kind: "pushed", count: 0 } as const;
}

/** Runs of one trial's events, each small enough for one request. */
function* batches(events: readonly StoredEvent[]): Generator<readonly StoredEvent[]> {
  let batch: StoredEvent[] = [];
  let size = 0;
  for (const event of events) {
    const length = JSON.stringify(event).length;
    const full = batch.length >= batchEvents || size + length > batchCharacters;
    if (batch[0] !== undefined && (full || batch[0].trial !== event.trial)) {
      yield batch;
      batch = [];
      size = 0;
    }
    batch.push(event);
    size += length;
  }
  if (batch.length > 0) yield batch;
}

/**
 * Asks for the trials that grew: where the server's newest cursor is another than ours, and where this
 * round sent something since the server told its cursors.
 */
async function pullAll(
  store: BrowserStore,
  remote: Remote,
  { theirs, sent }: { readonly theirs: readonly StoredTrial[]; readonly sent: ReadonlySet<string> },
) {
  let count = 0;
  const conflicts: string[] = [];
  const newest = new Map([...sent].map((trial) => [trial, Infinity]));
  for (const { trial, events } of theirs) if (!sent.has(trial)) newest.set(trial, events);
  for (const [trial, cursor] of newest) {
    for (let more = cursor !== (await store.pulled(trial)); more;) {
      const after = await store.pulled(trial);
      const log = await remote.pull(trial, after);
      if (log.kind === "failed") return log;
      more = log.more === true && log.cursor > after;
      if (log.cursor === after) continue;
      const merged = await store.merge(trial, log, after);
      count += merged.added;
      conflicts.push(...merged.conflicts);
    }
  }
  return { kind: "pulled", count, conflicts } as const;
}
