import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startPostgres, type TestPostgres } from "../doors/postgres.ts";
import { note } from "../doors/sample-events.ts";
import { bundleForNode } from "./bundle.ts";
import { xorshift } from "./random.ts";
import { emptyReport, inspect, killRounds, send, startServer } from "./rounds.ts";

const folder = mkdtempSync(join(tmpdir(), "coldproof-kill-"));
let built: Awaited<ReturnType<typeof bundleForNode>>;
let postgres: TestPostgres;
beforeAll(async () => {
  postgres = await startPostgres();
  built = await bundleForNode("test/kill/server-process.ts", "kill-server");
});
afterAll(async () => {
  built.remove();
  await postgres.stop();
  rmSync(folder, { recursive: true });
});

// What this cannot show: a power failure. The system keeps the pages of a killed process.
test.concurrent.for([1, 2])(
  "20 kills in the middle of writing, file %i: nothing acknowledged is lost",
  { timeout: 180_000 },
  async (seed, { expect }) => {
    const where = {
      server: built.file,
      file: join(folder, `${seed}.sqlite`),
      rounds: 20,
      writers: 4,
    };
    const { acknowledged, interrupted, lost, gaps, faults } = await killRounds(
      where,
      xorshift(seed),
    );
    expect({ lost, gaps, faults }).toEqual({ lost: [], gaps: 0, faults: [] });
    expect(acknowledged).toBeGreaterThan(120);
    expect(interrupted).toBeGreaterThan(10);
  },
);

test.concurrent("10 kills on PostgreSQL: the same", { timeout: 180_000 }, async ({ expect }) => {
  const where = { server: built.file, file: await postgres.database(), rounds: 10, writers: 4 };
  const { acknowledged, interrupted, lost, gaps, faults } = await killRounds(where, xorshift(3));
  expect({ lost, gaps, faults }).toEqual({ lost: [], gaps: 0, faults: [] });
  expect(acknowledged).toBeGreaterThan(50);
  expect(interrupted).toBeGreaterThan(4);
});

test("two processes that make and write one file at once take turns", async () => {
  const file = join(folder, "shared.sqlite");
  const report = emptyReport();
  const servers = await Promise.all([startServer(built.file, file), startServer(built.file, file)]);
  const batches = Array.from({ length: 60 }, (_, i) => [note(i), note(1000 + (i % 7))]);
  const sent = await Promise.all(
    batches.map((batch, i) => send(servers[i % 2]?.url ?? "", 1, batch, report)),
  );
  for (const { child } of servers) child.kill("SIGKILL");
  await inspect(file, new Set(batches.flat().map(({ id }) => id)), report);
  expect(sent.filter((taken) => !taken)).toEqual([]);
  expect(report).toEqual(emptyReport());
});
