import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { startPostgres } from "../doors/postgres.ts";
import { bundleForNode } from "../kill/bundle.ts";
import { xorshift } from "../kill/random.ts";
import { inspect, killRounds } from "../kill/rounds.ts";
import { surviveKills } from "../kill/survive.ts";

test.for([7, 8, 9, 10, 11])(
  "200 kills in the middle of writing, file %i: nothing acknowledged is lost",
  async (seed) => {
    const folder = mkdtempSync(join(tmpdir(), "coldproof-kill-"));
    const built = await bundleForNode("test/kill/server-process.ts", "kill-campaign");
    const where = { server: built.file, file: join(folder, "log.sqlite"), rounds: 200, writers: 8 };
    const { lost, gaps, faults, ids, ...seen } = await killRounds(where, xorshift(seed));
    console.log({ ...seen, ids: ids.size });
    expect({ lost, gaps, faults }).toEqual({ lost: [], gaps: 0, faults: [] });
    built.remove();
    rmSync(folder, { recursive: true });
  },
);

test("200 kills of the server on PostgreSQL, and 20 of PostgreSQL itself: the same", async () => {
  const postgres = await startPostgres();
  const built = await bundleForNode("test/kill/server-process.ts", "kill-campaign-postgres");
  const file = await postgres.database();
  const where = { server: built.file, file, rounds: 10, writers: 8 };
  const seen = { rounds: 0, acknowledged: 0, interrupted: 0 };
  for (let crash = 0; crash < 20; crash++) {
    // Each part has ids of its own; what the earlier ones acknowledged must still be there.
    const report = await killRounds({ ...where, firstId: crash * 1_000_000 }, xorshift(crash + 11));
    const { lost, gaps, faults } = report;
    expect({ lost, gaps, faults }).toEqual({ lost: [], gaps: 0, faults: [] });
    await postgres.crash();
    const after = { ...report, lost: [] };
    await inspect(file, report.ids, after);
    expect(after.lost).toEqual([]);
    seen.rounds += report.rounds;
    seen.acknowledged += report.acknowledged;
    seen.interrupted += report.interrupted;
  }
  console.log(seen);
  built.remove();
  await postgres.stop();
});

test("20 kills of a process of PostgreSQL under a server that goes on: the same", async () => {
  const postgres = await startPostgres();
  const built = await bundleForNode("test/kill/server-process.ts", "kill-campaign-backend");
  const where = { server: built.file, file: await postgres.database(), parent: postgres.pid() };
  const report = await surviveKills({ ...where, kills: 20 }, xorshift(5));
  const { lost, gaps, faults, rounds, acknowledged, interrupted } = report;
  console.log({ rounds, acknowledged, interrupted });
  expect({ lost, gaps, faults }).toEqual({ lost: [], gaps: 0, faults: [] });
  built.remove();
  await postgres.stop();
});
