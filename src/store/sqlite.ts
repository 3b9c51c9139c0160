import { mkdirSync } from "node:fs";
import { dirname, resolve } from "node:path";
import Database from "better-sqlite3";
import { CompiledQuery, Kysely, Migrator, SqliteDialect, sql } from "kysely";
import { appendLong } from "./append-long.ts";
import type { Batch, InsertRows } from "./append-rows.ts";
import type { OpenOutcome, OpenProblem } from "./open-outcome.ts";
import type { WriteFailure } from "./port.ts";
import { migrations, type Tables } from "./schema.ts";
import { sqliteNews } from "./sqlite-news.ts";
import { storeOn } from "./store-on.ts";

export interface SqliteOptions {
  /** How long a writer waits for another process that writes the same file, ms. */
  readonly patience?: number;
  /** Largest file, in pages of 4096 bytes; beyond it the disk counts as full. */
  readonly mostPages?: number;
}

/**
 * Opens the log in a file, making file and folder when they are missing, and brings its tables up to date.
 *
 * WAL with `synchronous = FULL`: a commit returns when the system says that it is on the disk.
 *
 * @param file path; ":memory:" for a log that ends with the process.
 */
export async function openSqliteStore(
  file: string,
  options: SqliteOptions = {},
): Promise<OpenOutcome> {
  const path = file === ":memory:" ? file : resolve(file);
  const refused = (reason: OpenProblem["reason"], detail: string) =>
    ({ kind: "refused", reason, path, detail }) as const;
  const opened = open(path, options);
  if (opened.kind === "refused") return refused(opened.reason, opened.detail);
  const sqlite = opened.database;
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: sqlite }) });
  const problem = await bringUpToDate(db, sqlite);
  if (problem !== undefined) {
    await db.destroy();
    return refused(problem.reason, problem.detail);
  }
  let stopLooking = () => {};
  const dialect = {
    kind: "sqlite",
    path,
    // One writer at a time is all that SQLite has.
    lanes: 1,
    failureOf,
    again: () => false,
    append: (batches: readonly Batch[]) => appendLong(db, batches, insertRows),
    copyTo: async (copy: string) => {
      await sqlite.backup(copy);
      return true;
    },
    end: () => {
      stopLooking();
      return Promise.resolve();
    },
  } as const;
  const { store, hear } = storeOn(db, dialect);
  const { follow, end } = sqliteNews(sqlite, (listener) => store.follow(listener), hear);
  stopLooking = end;
  return { kind: "opened", store: { ...store, follow } };
}

const insertRows: InsertRows = (tx, rows) => {
  const values = Array<string>(rows.length).fill("(?, ?, ?, ?, ?, ?)").join();
  const text = `insert into event (workspace, id, trial, seq, content, hash) values ${values}`;
  const given = rows.map((row) => [
    row.workspace,
    row.id,
    row.trial,
    row.seq,
    row.content,
    row.hash,
  ]);
  return tx.executeQuery(CompiledQuery.raw(text, given.flat()));
};

function open(path: string, { patience = 10_000, mostPages }: SqliteOptions) {
  try {
    if (path !== ":memory:") mkdirSync(dirname(path), { recursive: true });
    const database = new Database(path, { timeout: patience });
    database.pragma("journal_mode = WAL");
    database.pragma("synchronous = FULL");
    database.pragma("foreign_keys = ON");
    // On a Mac, a plain sync leaves the data in the drive's own cache.
    database.pragma("fullfsync = ON");
    database.pragma("checkpoint_fullfsync = ON");
    if (mostPages !== undefined) database.pragma(`max_page_count = ${mostPages}`);
    const findings = database.pragma("quick_check", { simple: true });
    if (findings !== "ok") {
      database.close();
      return { kind: "refused", reason: "damaged", detail: String(findings) } as const;
    }
    return { kind: "opened", database } as const;
  } catch (error) {
    return { kind: "refused", ...problemOf(error) } as const;
  }
}

function problemOf(error: unknown): OpenProblem {
  if (!(error instanceof Error)) throw error;
  const code = "code" in error ? String(error.code) : "";
  if (code === "SQLITE_NOTADB") return { reason: "not-a-log", detail: error.message };
  if (code.startsWith("SQLITE_CORRUPT")) return { reason: "damaged", detail: error.message };
  const outside = /^(SQLITE_(CANTOPEN|READONLY|BUSY|PERM|AUTH|FULL|IOERR)|E[A-Z]+$)/;
  if (outside.test(code) || error instanceof TypeError) {
    return { reason: "unreachable", detail: error.message };
  }
  throw error;
}

async function bringUpToDate(
  db: Kysely<Tables>,
  sqlite: Database.Database,
): Promise<OpenProblem | undefined> {
  try {
    const foreign = whatElseItIs(sqlite);
    if (foreign !== undefined) return foreign;
    await migrate(db);
    return undefined;
  } catch (error) {
    return problemOf(error);
  }
}

/** A file that is not ours to write: another program's database, or a later version's log. */
function whatElseItIs(sqlite: Database.Database): OpenProblem | undefined {
  const names = (query: string) =>
    sqlite
      .prepare<[], { name: string }>(query)
      .all()
      .map(({ name }) => name);
  const tables = names("select name from sqlite_master where type = 'table' order by name");
  if (tables.length === 0) return undefined;
  if (!tables.includes("kysely_migration")) {
    return { reason: "not-a-log", detail: `a database with other tables: ${tables.join(", ")}` };
  }
  const applied = names("select name from kysely_migration order by name");
  const unknown = applied.filter((name) => !(name in migrations));
  return unknown.length === 0
    ? undefined
    : { reason: "newer-version", detail: `tables of ${unknown.join(", ")}` };
}

/**
 * All of it or nothing, and one process at a time: kysely itself uses no transaction for SQLite, so a
 * crash would leave half a version, and two first starts at once would meet.
 */
async function migrate(db: Kysely<Tables>): Promise<void> {
  const provider = { getMigrations: () => Promise.resolve({ ...migrations }) };
  await db.connection().execute(async (connection) => {
    await sql`begin immediate`.execute(connection);
    const { error } = await new Migrator({ db: connection, provider }).migrateToLatest();
    await (error === undefined ? sql`commit` : sql`rollback`).execute(connection);
    if (error !== undefined)
      throw error instanceof Error ? error : new Error("no migration", { cause: error });
  });
}

/** SQLite's result code in the port's words; undefined when it is no fault of the medium. */
function failureOf(error: unknown): WriteFailure | undefined {
  if (!(error instanceof Database.SqliteError)) return undefined;
  if (error.code.startsWith("SQLITE_FULL")) return "disk-full";
  if (error.code.startsWith("SQLITE_BUSY")) return "busy";
  if (error.code.startsWith("SQLITE_READONLY")) return "read-only";
  if (error.code.startsWith("SQLITE_IOERR")) return "disk-error";
  return undefined;
}
