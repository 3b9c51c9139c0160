import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startPostgres, type TestPostgres } from "../../test/doors/postgres.ts";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { root } from "../../test/kill/bundle.ts";
import {
  backupTo,
  contentsOf,
  FaultyBackup,
  hashOfSecret,
  type LogStore,
  openStore,
  restoreFrom,
} from "./index.ts";

const folder = mkdtempSync(join(tmpdir(), "coldproof-backup-"));
let postgres: TestPostgres;
beforeAll(async () => {
  postgres = await startPostgres();
});
afterAll(async () => {
  await postgres.stop();
  rmSync(folder, { recursive: true });
});

const made = new Date("2026-06-14T08:00:00Z");
let files = 0;
const at = (end: string) => join(folder, `${++files}.${end}`);
async function open(place: string): Promise<LogStore> {
  const outcome = await openStore(place);
  if (outcome.kind !== "opened") throw new Error(`${outcome.reason}: ${outcome.detail}`);
  return outcome.store;
}

/** Two shops with three trials, one of them longer than a piece. */
async function filled(place: string): Promise<LogStore> {
  const store = await open(place);
  const created = made.toISOString();
  await store.access.keepWorkspace({ id: "a", name: "alpha", epoch: "1", created });
  const device = {
    id: "d",
    workspace: "a",
    name: "phone",
    role: "owner",
    revoked: null,
    lastSeen: null,
  } as const;
  await store.access.keepDevice({ ...device, created, keyHash: hashOfSecret("key") });
  await store.append(Array.from({ length: 2500 }, (_, i) => note(i)));
  await store.append([note(5000, { trial: 2, text: 'ünï "quoted"\n\u0000 𝒳 <b>' })]);
  await store.in("a").append([note(1, { text: "alpha's own" })]);
  return store;
}

async function everything(store: LogStore) {
  const [home, a] = [await store.read(trialId(1)), await store.in("a").read(trialId(1))];
  return { home, a, second: await store.read(trialId(2)), contents: await contentsOf(store) };
}

test("from either database into either, by lines: the same log, chains and devices", async () => {
  for (const from of [at("sqlite"), await postgres.database()]) {
    const store = await filled(from);
    const copy = at("jsonl");
    const contents = await backupTo(store, copy, made);
    expect(contents).toMatchObject({ workspaces: 2, trials: 3, events: 2502 });
    expect(statSync(copy).mode & 0o077).toBe(0);
    for (const to of [at("sqlite"), await postgres.database()]) {
      const target = await open(to);
      expect(await restoreFrom(target, copy)).toMatchObject({ added: 2502, conflicts: [] });
      expect(await everything(target)).toEqual(await everything(store));
      expect((await target.access.deviceOf(hashOfSecret("key")))?.name).toBe("phone");
      expect((await target.access.workspace("a"))?.name).toBe("alpha");
      expect((await target.access.workspace("a"))?.epoch).not.toBe("1");
      expect(await restoreFrom(target, copy)).toMatchObject({ added: 0, conflicts: [] });
      await target.close();
    }
    await store.close();
  }
});

test("a copy of SQLite's file, made while others write, is a sound log", async () => {
  const store = await filled(at("sqlite"));
  const copy = at("sqlite");
  const writing = Promise.all(
    Array.from({ length: 50 }, (_, i) => store.append([note(6000 + i, { trial: 4 })])),
  );
  const contents = await backupTo(store, copy, made);
  await writing;
  expect(contents.events).toBeGreaterThanOrEqual(2502);
  const opened = await open(copy);
  expect((await contentsOf(opened)).seal).toBe(contents.seal);
  await opened.close();
  const target = await open(at("sqlite"));
  expect((await restoreFrom(target, copy)).added).toBe(contents.events);
  await target.close();
  await store.close();
  expect(readdirSync(folder).filter((name) => /part|-wal|-shm/.test(name))).toEqual([]);
});

test("a copy of an older version's file is taken back and left as it is", async () => {
  const old = at("sqlite");
  copyFileSync(join(root, "test/schemas/0001-events.sqlite"), old);
  const before = readFileSync(old);
  const store = await open(at("sqlite"));
  expect(await restoreFrom(store, old)).toMatchObject({ added: 6, conflicts: [] });
  expect(readFileSync(old)).toEqual(before);
  await store.close();
});

test("adds what is missing, keeps what differs, and names it", async () => {
  const store = await filled(at("sqlite"));
  const copy = at("jsonl");
  await backupTo(store, copy, made);
  const target = await open(at("sqlite"));
  await target.append([note(7, { text: "written since" }), note(9000)]);
  const restored = await restoreFrom(target, copy);
  expect(restored).toMatchObject({ added: 2501, conflicts: [note(7).id] });
  const { events } = await target.read(trialId(1));
  expect(events).toContainEqual(note(7, { text: "written since" }));
  expect(events).toHaveLength(2501);
  await target.close();
  await store.close();
});

test("takes nothing from a copy that was altered, cut, or is something else", async () => {
  const store = await filled(at("sqlite"));
  const copy = at("jsonl");
  await backupTo(store, copy, made);
  const lines = readFileSync(copy, "utf8").split("\n");
  const faults: Record<string, string[]> = {
    "an altered entry": lines.map((line) => line.replace("note 1200", "note 1201")),
    "a missing entry": lines.filter((_, i) => i !== 900),
    "a missing trial": lines.slice(0, 5).concat(lines.slice(-2)),
    "no end": lines.slice(0, 1500),
    "two copies": [...lines.slice(0, -1), ...lines],
    "something else": ["these are the notes of somebody else"],
    nothing: [],
  };
  const target = await open(at("sqlite"));
  for (const [name, changed] of Object.entries(faults)) {
    const faulty = at("jsonl");
    writeFileSync(faulty, changed.join("\n"));
    await expect(restoreFrom(target, faulty), name).rejects.toThrow(FaultyBackup);
  }
  expect((await contentsOf(target)).events).toBe(0);
  await target.close();
  await store.close();
});

test("leaves no half file where it cannot write, and says that PostgreSQL has no such file", async () => {
  const store = await open(at("sqlite"));
  const nowhere = join(folder, "none", "copy.jsonl");
  await expect(backupTo(store, nowhere, made)).rejects.toMatchObject({ code: "ENOENT" });
  await store.close();
  const other = await open(await postgres.database());
  const copy = at("sqlite");
  await expect(backupTo(other, copy, made)).rejects.toThrow(FaultyBackup);
  expect(existsSync(copy)).toBe(false);
  await other.close();
});
