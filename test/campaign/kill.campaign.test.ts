import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { bundleForNode } from "../kill/bundle.ts";
import { xorshift } from "../kill/random.ts";
import { killRounds } from "../kill/rounds.ts";

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
