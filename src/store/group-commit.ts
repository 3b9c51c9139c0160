import { longBatch } from "./append-long.ts";
import type { Batch, GroupOutcome } from "./append-rows.ts";
import type { News } from "./log-store.ts";
import type { AppendOutcome, WriteFailure } from "./port.ts";

/** What a group may hold: enough to share a wait for the disk, little enough to keep others waiting briefly. */
const mostBatches = 500;
const mostEvents = longBatch;

export interface GroupCommit {
  append(batch: Batch): Promise<AppendOutcome>;
}

interface Waiting {
  readonly batch: Batch;
  readonly resolve: (outcome: AppendOutcome) => void;
  readonly reject: (error: unknown) => void;
}

/**
 * Lets batches that arrive while the disk is busy share the next transaction. Under light load a batch
 * goes at once; under heavy load the number of waits for the disk stays the same and the groups grow.
 *
 * @param lanes how many transactions run side by side; a trial always goes by the same one. One more is for long batches.
 * @param write one transaction over a group, see `appendGroup`.
 * @param failureOf a failure of the medium in the port's words; undefined for a fault of ours.
 * @param tell called after a group is safe.
 */
export function groupCommit({
  lanes,
  write,
  failureOf,
  tell,
}: {
  readonly lanes: number;
  readonly write: (batches: readonly Batch[]) => Promise<GroupOutcome>;
  readonly failureOf: (error: unknown) => WriteFailure | undefined;
  readonly tell: (news: readonly News[]) => void;
}): GroupCommit {
  /** Writes a group; when it is refused as a whole, each batch by itself, so that one cannot take others down. */
  const settle = async (group: readonly Waiting[]): Promise<void> => {
    try {
      const { outcomes, news } = await write(group.map(({ batch }) => batch));
      group.forEach(({ resolve }, i) => {
        const outcome = outcomes[i];
        if (outcome === undefined) throw new RangeError(`no outcome for batch ${i}`);
        resolve(outcome);
      });
      tell(news);
    } catch (error) {
      const reason = failureOf(error);
      // Without a database none of them can be written; each by itself would only wait as long again.
      if (reason === "unreachable" || (reason !== undefined && group.length === 1)) {
        for (const { resolve } of group) resolve({ kind: "failed", reason });
      } else if (group.length > 1) for (const one of group) await settle([one]);
      else group[0]?.reject(error);
    }
  };
  const lane = () => oneLane(settle);
  const all = Array.from({ length: lanes + 1 }, lane);
  return {
    append: (batch) =>
      new Promise((resolve, reject) => {
        all[laneOf(batch, lanes)]?.({ batch, resolve, reject });
      }),
  };
}

function oneLane(settle: (group: readonly Waiting[]) => Promise<void>) {
  const queue: Waiting[] = [];
  let running: Promise<void> | undefined;
  const drain = async () => {
    while (queue.length > 0) {
      // Requests that the system has already delivered get their turn to join the group.
      await new Promise((next) => setImmediate(next));
      await settle(queue.splice(0, sizeOfGroup(queue)));
    }
    running = undefined;
  };
  return (one: Waiting) => {
    queue.push(one);
    running ??= drain();
  };
}

function sizeOfGroup(queue: readonly Waiting[]): number {
  let size = 0;
  let events = 0;
  for (const { batch } of queue) {
    events += batch.entries.length;
    if (size > 0 && (size >= mostBatches || events > mostEvents)) break;
    size++;
  }
  return size;
}

/** A long batch goes beside the others: it would keep what belongs to other trials waiting. */
function laneOf({ entries }: Batch, lanes: number): number {
  if (entries.length > longBatch) return lanes;
  const trial = entries[0]?.event.trial ?? "";
  let sum = 0;
  for (let i = 0; i < trial.length; i++) sum = (sum * 31 + trial.charCodeAt(i)) >>> 0;
  return sum % lanes;
}
