import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { startPostgres } from "../doors/postgres.ts";
import { bundleForNode } from "../kill/bundle.ts";
import { xorshift } from "../kill/random.ts";
import { inspect, killRounds } from "../kill/rounds.ts";

test("1,000 kills in the middle of writing: nothing acknowledged is lost", async () => {
  const folder = mkdtempSync(join(tmpdir(), "coldproof-kill-"));
  const built = await bundleForNode("test/kill/server-process.ts", "kill-campaign");
  const where = { server: built.file, file: join(folder, "log.sqlite"), rounds: 1000, writers: 8 };
  const { lost, gaps, faults, ...seen } = await killRounds(where, xorshift(7));
  console.log(seen);
  expect({ lost, gaps, faults }).toEqual({ lost: [], gaps: 0, faults: [] });
  built.remove();
  rmSync(folder, { recursive: true });
});

test("200 kills of the server on PostgreSQL, and 10 of PostgreSQL itself: the same", async () => {
  const postgres = await startPostgres();
  const built = await bundleForNode("test/kill/server-process.ts", "kill-campaign-postgres");
  const file = await postgres.database();
  const where = { server: built.file, file, rounds: 20, writers: 8 };
  const seen = { rounds: 0, acknowledged: 0, interrupted: 0 };
  for (let crash = 0; crash < 10; crash++) {
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
