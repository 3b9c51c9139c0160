import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, expect, test, vi } from "vitest";
import { contract } from "../../test/doors/contract.ts";
import { sharedContract } from "../../test/doors/shared-contract.ts";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { openSqliteStore } from "./index.ts";
import { migrations } from "./schema.ts";

const folder = mkdtempSync(join(tmpdir(), "coldproof-store-"));
let files = 0;
const newFile = () => join(folder, `${++files}`, "log.sqlite");
afterAll(() => {
  rmSync(folder, { recursive: true });
});

async function open(file: string, patience = 10_000) {
  const outcome = await openSqliteStore(file, { patience });
  if (outcome.kind !== "opened") throw new Error(`${outcome.reason}: ${outcome.detail}`);
  return outcome.store;
}
async function refusal(file: string) {
  const outcome = await openSqliteStore(file);
  return outcome.kind === "refused" ? outcome.reason : outcome.kind;
}

test.for(contract)("$name", async ({ check }) => {
  const file = newFile();
  const store = await open(file);
  await check(store, () => open(file));
  await store.close();
});

test.for(sharedContract)("$name", async ({ check }) => {
  const file = newFile();
  const store = await open(file);
  await check(store, { openAgain: () => open(file) });
  await store.close();
});

test("a process on the same file is told what another one appends and revokes", async () => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval"] });
  const file = newFile();
  const [here, there] = [await open(file), await open(file)];
  await there.append([note(1), note(2, { trial: 2 })]);
  const created = "2026-06-14T08:00:00.000Z";
  const row = { id: "d", workspace: "home", name: "phone", role: "tester", keyHash: "f" } as const;
  await there.access.keepDevice({ ...row, created, revoked: null, lastSeen: null });
  const heard: unknown[] = [];
  const stop = here.follow((news) => heard.push(news));
  const later = () => {
    vi.advanceTimersByTime(1000);
    return heard.splice(0);
  };
  const grew = (trial: number, cursor: number) => {
    return { kind: "appended", workspace: "home", trial: trialId(trial), cursor };
  };
  expect(later()).toEqual([]);
  await there.append([note(3), note(4)]);
  expect(later()).toEqual([grew(1, 3)]);
  // Its own news come at once, and once.
  await here.append([note(5)]);
  expect(heard.splice(0)).toEqual([grew(1, 4)]);
  await there.append([note(6, { trial: 2 })]);
  await there.access.revoke("home", "d", created);
  expect(later()).toEqual([grew(2, 2), { kind: "revoked", device: "d" }]);
  expect(later()).toEqual([]);
  stop();
  await there.append([note(7)]);
  expect(later()).toEqual([]);
  await here.close();
  await there.close();
  vi.useRealTimers();
});

test("asks the disk at every commit", async () => {
  const file = newFile();
  const store = await open(file);
  await store.append([note(1)]);
  const other = new Database(file);
  expect(other.pragma("journal_mode", { simple: true })).toBe("wal");
  expect(other.pragma("integrity_check", { simple: true })).toBe("ok");
  other.close();
  await store.close();
});

test("writes down the version of its tables, once", async () => {
  const file = newFile();
  await (await open(file)).close();
  await (await open(file)).close();
  const sqlite = new Database(file);
  const versions = sqlite.prepare("select name from kysely_migration").pluck().all();
  sqlite.close();
  expect(versions).toEqual(Object.keys(migrations));
});

test("leaves the file of a newer version alone", async () => {
  const file = newFile();
  await (await open(file)).close();
  const sqlite = new Database(file);
  sqlite.exec("insert into kysely_migration values ('9999-later', '2030-01-01')");
  sqlite.close();
  expect(await refusal(file)).toBe("newer-version");
});

test("leaves alone what is no log", async () => {
  const text = newFile();
  mkdirSync(join(text, ".."));
  writeFileSync(
    text,
    "these are the notes of somebody else, long enough to be looked at\n".repeat(20),
  );
  const before = readFileSync(text);
  expect(await refusal(text)).toBe("not-a-log");
  expect(readFileSync(text)).toEqual(before);

  const foreign = newFile();
  mkdirSync(join(foreign, ".."));
  const sqlite = new Database(foreign);
  sqlite.exec("create table recipes (id integer)");
  sqlite.close();
  expect(await refusal(foreign)).toBe("not-a-log");
});

test("says so when the file is damaged", async () => {
  const file = newFile();
  const store = await open(file);
  await store.append(Array.from({ length: 2000 }, (_, i) => note(i)));
  await store.close();
  const bytes = readFileSync(file);
  bytes.fill(0x5a, 8192, 8192 + 40_000);
  writeFileSync(file, bytes);
  expect(await refusal(file)).toBe("damaged");
});

test("says so when the file cannot be reached", async () => {
  const file = newFile();
  mkdirSync(file, { recursive: true });
  expect(await refusal(file)).toBe("unreachable");
  const blocked = newFile();
  mkdirSync(join(blocked, "../.."), { recursive: true });
  writeFileSync(join(blocked, ".."), "a file where the folder should be");
  expect(await refusal(blocked)).toBe("unreachable");
});

test("a batch that fails half way leaves nothing behind", async () => {
  const file = newFile();
  const store = await open(file);
  await store.append([note(1)]);
  const sqlite = new Database(file);
  sqlite.exec(
    "create trigger fault before insert on event when new.id like '%2' begin select raise(fail, 'fault'); end",
  );
  sqlite.close();
  await expect(store.append([note(3), note(2)])).rejects.toThrow("fault");
  expect((await store.read(trialId(1))).events).toEqual([note(1)]);
  await store.close();
});

test("while another process holds the file, a batch fails as busy and can be sent again", async () => {
  const file = newFile();
  const store = await open(file, 20);
  const holder = new Database(file);
  holder.exec("begin immediate");
  expect(await store.append([note(1)])).toEqual({ kind: "failed", reason: "busy" });
  holder.exec("rollback");
  holder.close();
  expect((await store.append([note(1)])).kind).toBe("appended");
  await store.close();
});
