import { copyFileSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, expect, test } from "vitest";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { root } from "../../test/kill/bundle.ts";
import { openSqliteStore } from "./index.ts";
import { migrations } from "./schema.ts";

// Files that each released version itself wrote, with the same events: see what is appended below.
const released = join(root, "test/schemas");
const folder = mkdtempSync(join(tmpdir(), "coldproof-upgrade-"));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const first = [note(3), note(1), note(7, { text: 'ünï "quoted"\n\u0000 𝒳 <b>' })];
const second = [note(2, { trial: 2 }), note(5, { trial: 2 })];

async function open(file: string, mostPages?: number) {
  const outcome = await openSqliteStore(file, mostPages === undefined ? {} : { mostPages });
  if (outcome.kind !== "opened") throw new Error(`${outcome.reason}: ${outcome.detail}`);
  return outcome.store;
}

async function verdictsOf(store: Awaited<ReturnType<typeof open>>) {
  const kinds: string[] = [];
  for await (const { kind } of store.verify()) kinds.push(kind);
  return kinds;
}

test("there is a file of every released version but the newest", () => {
  const names = readdirSync(released).map((name) => name.replace(".sqlite", ""));
  expect(names).toEqual(Object.keys(migrations).slice(0, -1));
});

test.for(readdirSync(released))(
  "brings a file of %s up to date and loses nothing",
  async (name) => {
    const file = join(folder, name);
    copyFileSync(join(released, name), file);
    const store = await open(file);
    expect((await store.read(trialId(1))).events).toEqual(first);
    expect((await store.read(trialId(2))).events).toEqual(second);
    expect((await store.read(trialId(3))).cursor).toBe(1);
    expect(await verdictsOf(store)).toEqual(["sound", "sound", "sound"]);
    // What was there goes on where it stood: repeats are known, cursors hold, conflicts are seen.
    const again = await store.append([...first, note(9)]);
    expect(again).toMatchObject({ kind: "appended", accepted: [note(9).id] });
    expect(await store.read(trialId(1), 3)).toEqual({ events: [note(9)], cursor: 4 });
    expect((await store.append([note(1, { text: "other" })])).kind).toBe("refused");
    await store.close();
  },
);

test("an upgrade that finds no room leaves the file as it was", async () => {
  const file = join(folder, "tight.sqlite");
  copyFileSync(join(released, "0001-events.sqlite"), file);
  const sqlite = new Database(file);
  const insert = sqlite.prepare("insert into event values (?, ?, ?, ?)");
  const trial = trialId(1);
  sqlite.transaction(() => {
    for (let i = 0; i < 2000; i++) {
      const event = note(5000 + i, { text: "x".repeat(200) });
      insert.run(event.id, trial, 4 + i, JSON.stringify(event));
    }
    sqlite.prepare("update trial set last_seq = 2003 where id = ?").run(trial);
  })();
  const pages = Number(sqlite.pragma("page_count", { simple: true }));
  sqlite.close();
  const tight = await openSqliteStore(file, { mostPages: pages + 20 });
  expect(tight).toMatchObject({ kind: "refused", reason: "unreachable" });
  const store = await open(file);
  expect((await store.read(trial)).cursor).toBe(2003);
  expect(await verdictsOf(store)).toEqual(["sound", "sound", "sound"]);
  await store.close();
});

test("a full disk: the batch fails as a whole, nothing before it is harmed, and later there is room", async () => {
  const file = join(folder, "full.sqlite");
  const tight = await open(file, 60);
  const big = (n: number) => note(n, { text: "x".repeat(8000) });
  let taken = 0;
  for (;;) {
    const outcome = await tight.append([big(2 * taken), big(2 * taken + 1)]);
    if (outcome.kind === "failed") {
      expect(outcome.reason).toBe("disk-full");
      break;
    }
    taken++;
  }
  expect(taken).toBeGreaterThan(3);
  // One that is too large does not take down those that came with it.
  const together = await Promise.all([
    tight.append([note(9001, { text: "x".repeat(90_000) })]),
    tight.append([note(9002)]),
  ]);
  expect(together.map(({ kind }) => kind)).toEqual(["failed", "appended"]);
  expect((await tight.read(trialId(1))).cursor).toBe(2 * taken + 1);
  await tight.close();
  const roomy = await open(file);
  expect((await roomy.append([big(2 * taken), big(2 * taken + 1)])).kind).toBe("appended");
  expect(await verdictsOf(roomy)).toEqual(["sound"]);
  expect((await roomy.read(trialId(1))).cursor).toBe(2 * taken + 3);
  await roomy.close();
});

test("an altered, a missing and a cut-off row are found", async () => {
  const faults: [string, object][] = [
    ["update event set content = replace(content, 'note 2', 'note 9')", { seq: 2, reason: "hash" }],
    ["delete from event where seq = 2", { seq: 2, reason: "gap" }],
    ["delete from event where seq = 3", { seq: 3, reason: "gap" }],
    ["update trial set head = 'f'", { seq: 4, reason: "head" }],
  ];
  for (const [i, [query, found]] of faults.entries()) {
    const file = join(folder, `fault-${i}.sqlite`);
    const store = await open(file);
    await store.append([note(1), note(2), note(3)]);
    const sqlite = new Database(file);
    sqlite.exec(query);
    sqlite.close();
    for await (const verdict of store.verify()) {
      expect(verdict).toMatchObject({ kind: "broken", trial: trialId(1), ...found });
    }
    await store.close();
  }
});
