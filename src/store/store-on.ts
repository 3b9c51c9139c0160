import { EventEmitter } from "node:events";
import type { Kysely } from "kysely";
import type { StoredEvent } from "../trial/index.ts";
import { accessRecords } from "./access-rows.ts";
import type { Batch, GroupOutcome } from "./append-rows.ts";
import { distinctInSlices } from "./content.ts";
import { groupCommit } from "./group-commit.ts";
import { homeWorkspace, type LogStore, type News, StoreUnavailable } from "./log-store.ts";
import type { WorkspaceLog, WriteFailure } from "./port.ts";
import { eventRows, readRows, trialEnds, trialRows, verdicts } from "./read-rows.ts";
import type { Tables } from "./schema.ts";
import { seenDevices } from "./seen.ts";
import { inTurns } from "./turns.ts";

/** What differs between databases. */
export interface Dialect {
  readonly kind: LogStore["kind"];
  readonly path: string;
  /** Transactions side by side. */
  readonly lanes: number;
  /** A failure of the medium in the port's words; undefined for a fault of ours. */
  readonly failureOf: (error: unknown) => WriteFailure | undefined;
  /** True when the same group may succeed at once: another process was in between. */
  readonly again: (error: unknown) => boolean;
  /** One transaction over a group, or a quicker way to the same. */
  readonly append: (batches: readonly Batch[]) => Promise<GroupOutcome>;
  /** Tells other processes; absent where a database has only one. */
  readonly tell?: (news: readonly News[]) => void;
  readonly copyTo: (file: string) => Promise<boolean>;
  /** Ends what the dialect opened beside `db`. */
  readonly end?: () => Promise<void>;
}

/** How often a group is tried when other processes come in between. */
const tries = 5;

/** The store over any SQL database: one code, two dialects. */
export function storeOn(db: Kysely<Tables>, dialect: Dialect) {
  const news = new EventEmitter<{ news: [News] }>().setMaxListeners(0);
  const hear = (heard: News) => news.emit("news", heard);
  const tell = (fresh: readonly News[]) => {
    if (fresh.length === 0) return;
    fresh.forEach(hear);
    dialect.tell?.(fresh);
  };
  const told = (error: unknown): unknown => {
    const failure = dialect.failureOf(error);
    return failure === undefined ? error : new StoreUnavailable(failure, { cause: error });
  };
  const guarded = async <T>(query: () => Promise<T>): Promise<T> => {
    try {
      return await query();
    } catch (error) {
      throw told(error);
    }
  };
  const guardedPieces = async function* <T>(pieces: AsyncIterable<T>): AsyncIterable<T> {
    try {
      yield* pieces;
    } catch (error) {
      throw told(error);
    }
  };
  const write = (batches: readonly Batch[]) =>
    retried(() => dialect.append(batches), dialect.again);
  const seen = seenDevices(db);
  const { lanes, failureOf } = dialect;
  const commits = groupCommit({ lanes, write, failureOf, tell });
  const underWay = new Set<Promise<unknown>>();
  const append = (workspace: string, events: readonly StoredEvent[]) => {
    const work = inTurns(distinctInSlices(events)).then((batch) =>
      commits.append({ workspace, ...batch }),
    );
    underWay.add(work);
    const done = () => underWay.delete(work);
    work.then(done, done);
    return work;
  };
  const logIn = (workspace: string): WorkspaceLog => ({
    append: (events) => append(workspace, events),
    read: (trial, after = 0, most) =>
      guarded(() => readRows(db, { workspace, trial, after, most })),
    trials: () => guarded(() => trialRows(db, workspace)),
  });
  const store: LogStore = {
    kind: dialect.kind,
    path: dialect.path,
    ...logIn(homeWorkspace),
    in: logIn,
    access: accessRecords(db, seen, guarded, (device) => {
      tell([{ kind: "revoked", device }]);
      return Promise.resolve();
    }),
    follow: (listener) => {
      news.on("news", listener);
      return () => news.off("news", listener);
    },
    verify: () => guardedPieces(verdicts(db)),
    ends: () => guardedPieces(trialEnds(db)),
    rows: (workspace, trial) => guardedPieces(eventRows(db, workspace, trial)),
    copyTo: dialect.copyTo,
    close: async () => {
      await Promise.allSettled(underWay);
      await seen.write();
      await dialect.end?.();
      await db.destroy();
    },
  };
  return { store, hear };
}

async function retried<T>(work: () => Promise<T>, again: (error: unknown) => boolean): Promise<T> {
  for (let left = tries; ; left--) {
    try {
      return await work();
    } catch (error) {
      if (left <= 1 || !again(error)) throw error;
    }
  }
}
