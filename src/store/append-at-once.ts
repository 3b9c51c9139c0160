import { CompiledQuery, type Kysely } from "kysely";
import type { Pool } from "pg";
import { appendLong } from "./append-long.ts";
import {
  type Batch,
  type End,
  type EventRow,
  type GroupOutcome,
  type InsertRows,
  keyOf,
  newsOf,
  place,
} from "./append-rows.ts";
import type { AppendOutcome } from "./port.ts";
import type { Tables } from "./schema.ts";
import { atOnce } from "./turns.ts";

/** Trials whose ends are remembered; one more forgets the one that was written longest ago. */
const mostTrials = 10_000;
/** Beyond it the ways to the database and back no longer matter. */
const mostRows = 1000;

/** A group that can be written on the word of what is remembered. */
interface Plan {
  /** Of each batch, the trial that it extends. */
  readonly keys: readonly string[];
  readonly outcomes: GroupOutcome["outcomes"];
  readonly rows: readonly EventRow[];
  readonly before: ReadonlyMap<string, End>;
  readonly after: ReadonlyMap<string, End>;
}

/**
 * Appends groups to PostgreSQL in one statement, one way there and back instead of six or more, where this process itself
 * wrote the last events of the trials. The statement extends only trials that still end where they did; what
 * another process has extended, and a group with an event that is in the log, goes the careful way of `appendGroup`.
 *
 * @throws whatever the database throws. Batches of the group may be written then, each whole or not at all: tried again, they are found.
 */
export function appendAtOnce(db: Kysely<Tables>, pool: Pool) {
  const known = new Map<string, End>();
  const remember = (ends: Iterable<readonly [string, End]>) => {
    for (const [key, end] of ends) {
      known.delete(key);
      known.set(key, { ...end, grew: false });
    }
    for (const key of known.keys()) {
      if (known.size <= mostTrials) break;
      known.delete(key);
    }
  };
  const carefully = async (batches: readonly Batch[]): Promise<GroupOutcome> => {
    const outcome = await appendLong(db, batches, insertRows);
    remember(outcome.ends);
    return outcome;
  };

  return async (batches: readonly Batch[]): Promise<GroupOutcome> => {
    const plan = planOf(batches, known);
    if (plan === undefined) return carefully(batches);
    // Until the database has answered, nobody knows where they end: what is tried again goes the careful way.
    for (const key of plan.keys) known.delete(key);
    const grown = await extend(pool, plan);
    const ends = new Map([...plan.after].filter(([key]) => grown.has(key)));
    remember(ends);
    const left = batches.filter((_, i) => !grown.has(plan.keys[i] ?? ""));
    if (left.length === 0) return { outcomes: plan.outcomes, news: newsOf(ends), ends };
    return merged(plan, { grown, ends }, await carefully(left));
  };
}

/** Undefined where a batch needs a look into the log: it is empty, repeats an event, or its trial's end is not known. */
function planOf(batches: readonly Batch[], known: ReadonlyMap<string, End>): Plan | undefined {
  const before = new Map<string, End>();
  const after = new Map<string, End>();
  const keys: string[] = [];
  const contents = new Map<string, string>();
  const rows: EventRow[] = [];
  const outcomes: AppendOutcome[] = [];
  for (const { workspace, entries, conflicts } of batches) {
    const trials = new Set(entries.map(({ event }) => event.trial));
    const [trial] = trials;
    if (trial === undefined || trials.size > 1 || conflicts.length > 0) return undefined;
    const key = keyOf(workspace, trial);
    const end = known.get(key);
    if (end === undefined || rows.length + entries.length > mostRows) return undefined;
    keys.push(key);
    before.set(key, end);
    if (!after.has(key)) after.set(key, { ...end });
    const outcome = atOnce(place(workspace, entries, { ends: after, known: contents, rows }));
    if (outcome.kind !== "appended" || outcome.duplicates.length > 0) return undefined;
    outcomes.push(outcome);
  }
  return { keys, outcomes, rows, before, after };
}

const columnsOf = (rows: readonly EventRow[]) =>
  (["workspace", "id", "trial", "seq", "content", "hash"] as const).map((name) =>
    rows.map((row) => row[name]),
  );

const insertRows: InsertRows = (tx, rows) => {
  const text = `insert into event (workspace, id, trial, seq, content, hash)
    select * from unnest($1::text[], $2::text[], $3::text[], $4::int[], $5::text[], $6::text[])`;
  return tx.executeQuery(CompiledQuery.raw(text, columnsOf(rows)));
};

const statement = `
  with wanted as (
    select * from unnest($1::text[], $2::text[], $3::int[], $4::text[], $5::int[], $6::text[])
      as t (workspace, id, last_seq, head, old_seq, old_head)
  ), grown as (
    update trial set last_seq = wanted.last_seq, head = wanted.head from wanted
    where trial.workspace = wanted.workspace and trial.id = wanted.id
      and trial.last_seq = wanted.old_seq and trial.head = wanted.old_head
    returning trial.workspace, trial.id
  ), added as (
    insert into event (workspace, id, trial, seq, content, hash)
    select given.*
    from unnest($7::text[], $8::text[], $9::text[], $10::int[], $11::text[], $12::text[])
      as given (workspace, id, trial, seq, content, hash)
    join grown on grown.workspace = given.workspace and grown.id = given.trial
  )
  select workspace, id from grown`;

/** Trials that were extended; of the others nothing was written. */
async function extend(pool: Pool, { rows, before, after }: Plan) {
  // Always in the same order, so that two processes do not wait for each other.
  const trials = [...after].sort(([a], [b]) => (a < b ? -1 : 1));
  const of = <T>(value: (end: End) => T) => trials.map(([, end]) => value(end));
  const old = trials.map(([key]) => before.get(key));
  const columns = columnsOf(rows);
  const { rows: grown } = await pool.query<{ workspace: string; id: string }>({
    // Planned once for each connection: that is half of the database's work for a small group.
    name: "append-at-once",
    text: statement,
    values: [
      ...[of(({ workspace }) => workspace), of(({ trial }) => trial)],
      ...[of(({ seq }) => seq), of(({ head }) => head)],
      ...[old.map((end) => end?.seq), old.map((end) => end?.head)],
      ...columns,
    ],
  });
  return new Set(grown.map(({ workspace, id }) => keyOf(workspace, id)));
}

/** What was written at once, and what was written the careful way, in the order of the batches. */
function merged(
  { keys, outcomes }: Plan,
  { grown, ends }: { grown: ReadonlySet<string>; ends: ReadonlyMap<string, End> },
  careful: GroupOutcome,
): GroupOutcome {
  const left = [...careful.outcomes];
  const all = outcomes.map((outcome, i) => (grown.has(keys[i] ?? "") ? outcome : left.shift()));
  return {
    outcomes: all.filter((outcome) => outcome !== undefined),
    news: [...newsOf(ends), ...careful.news],
    ends: new Map([...ends, ...careful.ends]),
  };
}
