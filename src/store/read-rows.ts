import { type Kysely, sql } from "kysely";
import { chainStart, type StoredEvent, verifyChain } from "../trial/index.ts";
import { digest } from "./digest.ts";
import type { StoredRow, StoredTrialEnd, TrialVerdict } from "./log-store.ts";
import type { StoredLog, StoredTrial } from "./port.ts";
import type { Tables } from "./schema.ts";
import { turn } from "./turns.ts";

/** Rows that are in memory at a time when a whole log is walked through. */
const piece = 2000;

/**
 * Events whose texts the database hands over as one: 200,000 texts of their own cost twice as much. No more, because a text beyond
 * some 128 kB lies apart in V8's memory, and its garbage costs more than the further questions.
 */
const texts = 300;

interface Wanted {
  readonly workspace: string;
  readonly trial: string;
  readonly after: number;
  readonly most: number | undefined;
}

/**
 * Events of a trial after a cursor, in order of arrival; all of them without `most`. In pieces, with a turn for other
 * requests after each: a long log holds nobody up.
 */
export async function readRows(
  db: Kysely<Tables>,
  { workspace, trial, after, most = Infinity }: Wanted,
): Promise<StoredLog> {
  const events: StoredEvent[] = [];
  let cursor = after;
  while (events.length < most) {
    const limit = Math.min(texts, most - events.length);
    const piece = await pieceOf(db, { workspace, trial, after: cursor, limit });
    if (piece === undefined) break;
    for (const event of piece.events) events.push(event);
    cursor = piece.cursor;
    if (piece.events.length < limit) break;
    await turn();
  }
  return { events, cursor };
}

async function pieceOf(
  db: Kysely<Tables>,
  { workspace, trial, after, limit }: Omit<Wanted, "most"> & { readonly limit: number },
): Promise<StoredLog | undefined> {
  const rows = db
    .selectFrom("event")
    .select(["seq", "content"])
    .where("workspace", "=", workspace)
    .where("trial", "=", trial)
    .where("seq", ">", after)
    .orderBy("seq")
    .limit(limit)
    .as("piece");
  const found = await db
    .selectFrom(rows)
    .select(({ fn }) => [
      // Neither database sorts again what comes in order.
      sql<string | null>`'[' || string_agg(content, ',') || ']'`.as("contents"),
      fn.max("seq").as("cursor"),
    ])
    .executeTakeFirst();
  if (!found?.contents) return undefined;
  // Only `appendGroup` writes this column, from events that a door parsed.
  const events = JSON.parse(found.contents) as StoredEvent[];
  return { events, cursor: found.cursor };
}

export async function trialRows(
  db: Kysely<Tables>,
  workspace: string,
): Promise<readonly StoredTrial[]> {
  const rows = await db
    .selectFrom("trial")
    .select(["id", "last_seq"])
    .where("workspace", "=", workspace)
    .where("last_seq", ">", 0)
    .orderBy("id")
    .execute();
  return rows.map((row) => ({ trial: row.id, events: row.last_seq }));
}

/** Every trial with the end of its chain, by workspace and id. */
export async function* trialEnds(db: Kysely<Tables>): AsyncGenerator<StoredTrialEnd> {
  const workspaces = await db.selectFrom("workspace").select("id").orderBy("id").execute();
  for (const { id: workspace } of workspaces) {
    const rows = await db
      .selectFrom("trial")
      .selectAll()
      .where("workspace", "=", workspace)
      .where("last_seq", ">", 0)
      .orderBy("id")
      .execute();
    for (const { id, last_seq, head } of rows) {
      yield { workspace, trial: id, events: last_seq, head };
    }
  }
}

/** A trial's rows in order, in pieces. */
export async function* eventRows(
  db: Kysely<Tables>,
  workspace: string,
  trial: string,
): AsyncGenerator<readonly StoredRow[]> {
  for (let after = 0; ;) {
    const rows = await db
      .selectFrom("event")
      .select(["seq", "content", "hash"])
      .where("workspace", "=", workspace)
      .where("trial", "=", trial)
      .where("seq", ">", after)
      .orderBy("seq")
      .limit(piece)
      .execute();
    const last = rows.at(-1);
    if (last === undefined) return;
    yield rows;
    after = last.seq;
  }
}

/** Recomputes every trial's chain up to the end that its row names; events that came since are left out. */
export async function* verdicts(db: Kysely<Tables>): AsyncGenerator<TrialVerdict> {
  for await (const end of trialEnds(db)) {
    const { workspace, trial } = end;
    let verdict = verifyChain([], { count: 0, head: chainStart });
    for await (const rows of eventRows(db, workspace, trial)) {
      if (verdict.kind === "broken") break;
      const upToEnd = rows.filter(({ seq }) => seq <= end.events);
      verdict = verifyChain(upToEnd, verdict, digest);
    }
    if (verdict.kind === "broken") {
      yield { kind: "broken", workspace, trial, seq: verdict.seq, reason: verdict.reason };
    } else if (verdict.count !== end.events || verdict.head !== end.head) {
      const reason = verdict.count === end.events ? "head" : "gap";
      yield { kind: "broken", workspace, trial, seq: verdict.count + 1, reason };
    } else yield { kind: "sound", workspace, trial, events: end.events, head: end.head };
  }
}
