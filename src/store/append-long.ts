import type { Kysely } from "kysely";
import { chainStart } from "../trial/index.ts";
import {
  appendGroup,
  type Batch,
  claim,
  type End,
  type EventRow,
  type GroupOutcome,
  type InsertRows,
  inTransaction,
  keyOf,
  knownContents,
  newsOf,
  place,
  write,
} from "./append-rows.ts";
import type { AppendOutcome } from "./port.ts";
import type { Tables } from "./schema.ts";
import { inTurns } from "./turns.ts";

/** A batch of more events goes by itself, beside the groups. */
export const longBatch = 5000;

interface Plan {
  readonly outcome: AppendOutcome;
  readonly rows: readonly EventRow[];
  readonly before: ReadonlyMap<string, End>;
  readonly after: Map<string, End>;
}

/**
 * `appendGroup`, but a long batch is worked out before its transaction, which then only has to write: others wait for
 * that and not for the hashes of some ten thousand events. Where its trials grew meanwhile, or anything else comes between, it goes the careful way.
 *
 * @throws whatever the database throws; nothing was written then.
 */
export async function appendLong(
  db: Kysely<Tables>,
  batches: readonly Batch[],
  insert: InsertRows,
): Promise<GroupOutcome> {
  const [batch] = batches;
  if (batches.length > 1 || batch === undefined || batch.entries.length <= longBatch) {
    return appendGroup(db, batches, insert);
  }
  if (batch.conflicts.length > 0) return appendGroup(db, batches, insert);
  const plan = await planOf(db, batch);
  if (plan.rows.length === 0) return { outcomes: [plan.outcome], news: [], ends: new Map() };
  return (await written(db, batch, { plan, insert })) ?? appendGroup(db, batches, insert);
}

async function planOf(db: Kysely<Tables>, batch: Batch): Promise<Plan> {
  const { workspace, entries } = batch;
  const before = await endsOf(db, batch);
  const known = await knownContents(db, [batch]);
  const after = new Map([...before].map(([key, end]) => [key, { ...end }]));
  const rows: EventRow[] = [];
  const outcome = await inTurns(place(workspace, entries, { ends: after, known, rows }));
  return { outcome, rows, before, after };
}

/** Where the batch's trials end now. */
async function endsOf(db: Kysely<Tables>, { workspace, entries }: Batch) {
  const ends = new Map<string, End>();
  for (const trial of new Set(entries.map(({ event }) => event.trial))) {
    const row = await db
      .selectFrom("trial")
      .select(["last_seq", "head"])
      .where("workspace", "=", workspace)
      .where("id", "=", trial)
      .executeTakeFirst();
    const { last_seq: seq, head } = row ?? { last_seq: 0, head: chainStart };
    ends.set(keyOf(workspace, trial), { workspace, trial, seq, head, grew: false });
  }
  return ends;
}

/** Undefined where the plan does not hold any more: nothing was written then. */
async function written(
  db: Kysely<Tables>,
  batch: Batch,
  { plan: { outcome, rows, before, after }, insert }: { plan: Plan; insert: InsertRows },
): Promise<GroupOutcome | undefined> {
  const changed = new Error("a trial grew meanwhile");
  try {
    return await inTransaction(db, async (tx) => {
      for (const [key, { seq, head }] of await claim(tx, [batch])) {
        const end = before.get(key);
        if (end?.seq !== seq || end.head !== head) throw changed;
      }
      await write(tx, { rows, ends: after, insert });
      return { outcomes: [outcome], news: newsOf(after), ends: after };
    });
  } catch {
    // Whatever it was, the careful way finds it again.
    return undefined;
  }
}
