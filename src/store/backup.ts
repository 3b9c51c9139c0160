import { once } from "node:events";
import { createWriteStream } from "node:fs";
import { copyFile, mkdtemp, open, rename, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chainStart, type StoredEvent } from "../trial/index.ts";
import { newId } from "./access.ts";
import {
  type BackupLine,
  type Contents,
  FaultyBackup,
  readBackup,
  sealWith,
} from "./backup-format.ts";
import type { LogStore } from "./log-store.ts";
import { openSqliteStore } from "./sqlite.ts";

/** Sums of what a store holds, after every chain was recomputed. @throws FaultyBackup at a broken one. */
export async function contentsOf(store: LogStore): Promise<Contents> {
  let [trials, events, seal] = [0, 0, chainStart];
  for await (const verdict of store.verify()) {
    const { workspace, trial } = verdict;
    if (verdict.kind === "broken") {
      const what = `of trial ${trial} in workspace ${workspace} does not follow (${verdict.reason})`;
      throw new FaultyBackup({ line: verdict.seq, what });
    }
    trials++;
    events += verdict.events;
    seal = sealWith(seal, verdict);
  }
  const workspaces = (await store.access.workspaces()).length;
  return { workspaces, trials, events, seal };
}

/**
 * Writes a copy and looks at it. A name that ends with .sqlite gives a copy of SQLite's file, where the log
 * is in one; every other name gives JSON lines, which both databases take back.
 *
 * @throws FaultyBackup when the log itself is broken; errors of the file system pass.
 */
export async function backupTo(store: LogStore, file: string, made: Date): Promise<Contents> {
  if (!file.endsWith(".sqlite")) {
    await writeLinesTo(store, file, made);
    return readBackup(file);
  }
  const beside = `${file}.${process.pid}.part`;
  try {
    if (!(await store.copyTo(beside))) {
      throw new FaultyBackup({
        line: 0,
        what: "PostgreSQL gives no file of SQLite; name it .jsonl",
      });
    }
    const contents = await withSqlite(beside, contentsOf);
    await rename(beside, file);
    return contents;
  } finally {
    for (const end of ["", "-wal", "-shm"]) await rm(beside + end, { force: true });
  }
}

async function withSqlite<T>(file: string, work: (store: LogStore) => Promise<T>): Promise<T> {
  const opened = await openSqliteStore(file);
  if (opened.kind === "refused") {
    throw new FaultyBackup({ line: 0, what: `${opened.reason}: ${opened.detail}` });
  }
  try {
    return await work(opened.store);
  } finally {
    await opened.store.close();
  }
}

/** Takes back a copy of either kind, see `restoreLines`. */
export async function restoreFrom(store: LogStore, file: string): Promise<Restored> {
  if (!(await isSqlite(file))) return restoreLines(store, file);
  // A copy of an older version is brought up to date on the way; the copy itself stays as it is.
  const folder = await mkdtemp(join(tmpdir(), "coldproof-restore-"));
  const [copy, lines] = [join(folder, "copy.sqlite"), join(folder, "copy.jsonl")];
  try {
    await copyFile(file, copy);
    await withSqlite(copy, (from) => writeLinesTo(from, lines, new Date(0)));
    return await restoreLines(store, lines);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function isSqlite(file: string): Promise<boolean> {
  const opened = await open(file, "r");
  try {
    const { buffer } = await opened.read(Buffer.alloc(16), 0, 16, 0);
    return buffer.toString("latin1").startsWith("SQLite format 3");
  } finally {
    await opened.close();
  }
}

/**
 * Writes everything but pairing codes as JSON lines, see docs/backup.md; beside, then renamed, so that a
 * file of that name is always whole. Others may write on meanwhile: a trial is copied up to the end that it
 * had when its turn came.
 */
async function writeLinesTo(store: LogStore, file: string, made: Date): Promise<Contents> {
  const beside = `${file}.${process.pid}.part`;
  const out = createWriteStream(beside, { flags: "wx", mode: 0o600 });
  const write = async (line: BackupLine) => {
    if (!out.write(`${JSON.stringify(line)}\n`)) await once(out, "drain");
  };
  try {
    await once(out, "open");
    const contents = await writeLines(store, write, made);
    out.end();
    await once(out, "finish");
    await rename(beside, file);
    return contents;
  } catch (error) {
    out.destroy();
    await rm(beside, { force: true });
    throw error;
  }
}

async function writeLines(
  store: LogStore,
  write: (line: BackupLine) => Promise<void>,
  made: Date,
): Promise<Contents> {
  await write({ format: "coldproof-backup", version: 1, made: made.toISOString() });
  const workspaces = await store.access.workspaces();
  for (const workspace of workspaces) {
    await write({ workspace });
    for (const device of await store.access.devices(workspace.id)) await write({ device });
  }
  let [trials, events, seal] = [0, 0, chainStart];
  for await (const end of store.ends()) {
    await write({ trial: end });
    for await (const rows of store.rows(end.workspace, end.trial)) {
      for (const { seq, content, hash } of rows) {
        if (seq <= end.events) await write({ seq, content, hash });
      }
    }
    trials++;
    events += end.events;
    seal = sealWith(seal, end);
  }
  const contents = { workspaces: workspaces.length, trials, events, seal };
  await write({ end: contents });
  return contents;
}

/** Events that go into the log at once while a copy is taken back. */
const batchSize = 500;

export interface Restored extends Contents {
  readonly added: number;
  /** Events that the log has with other content: both stay where they are. */
  readonly conflicts: readonly string[];
}

/**
 * Takes a copy back: first reads it through, then adds what is missing. Nothing in the log is changed or
 * removed, so doing it twice does no harm. Every workspace gets a new epoch, so that devices offer again
 * what the copy does not know.
 *
 * @throws FaultyBackup before anything was taken.
 */
async function restoreLines(store: LogStore, file: string): Promise<Restored> {
  const contents = await readBackup(file);
  let workspace = "";
  let batch: StoredEvent[] = [];
  let added = 0;
  const conflicts: string[] = [];
  const flush = async () => {
    let rest = batch;
    batch = [];
    while (rest.length > 0) {
      const outcome = await store.in(workspace).append(rest);
      if (outcome.kind === "failed") throw new Error(`the disk did not take it: ${outcome.reason}`);
      if (outcome.kind === "appended") {
        added += outcome.accepted.length;
        return;
      }
      const refused = new Set(outcome.conflicts);
      conflicts.push(...refused);
      rest = rest.filter(({ id }) => !refused.has(id));
    }
  };
  await readBackup(file, async (line) => {
    if (!("seq" in line)) await flush();
    if ("workspace" in line) {
      await store.access.keepWorkspace({ ...line.workspace, epoch: newId() });
    } else if ("device" in line) await store.access.keepDevice(line.device);
    else if ("trial" in line) workspace = line.trial.workspace;
    else if ("seq" in line) {
      batch.push(JSON.parse(line.content) as StoredEvent);
      if (batch.length >= batchSize) await flush();
    }
  });
  return { ...contents, added, conflicts };
}
