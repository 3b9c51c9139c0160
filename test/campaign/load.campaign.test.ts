import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startPostgres, type TestPostgres } from "../doors/postgres.ts";
import { measureLoad } from "../load/devices.ts";

// Needs a quiet machine: the devices, the server and PostgreSQL share its cores.
const folder = mkdtempSync(join(tmpdir(), "coldproof-load-"));
let postgres: TestPostgres;
beforeAll(async () => {
  postgres = await startPostgres();
});
afterAll(async () => {
  await postgres.stop();
  rmSync(folder, { recursive: true });
});

test.for(["SQLite", "PostgreSQL"])(
  "200 devices, a reading a second each, on %s: 99 of 100 acknowledged within 50 ms",
  async (kind) => {
    const usual: number[] = [];
    for (const perDevice of [1, 2, 4]) {
      const place =
        kind === "SQLite" ? join(folder, `${perDevice}.sqlite`) : await postgres.database();
      const load = await measureLoad({ place, port: 5075, devices: 200, seconds: 15, perDevice });
      console.log(kind, `${200 * perDevice} a second`, load);
      expect(load.failed).toBe(0);
      if (perDevice === 1) usual.push(load.p99);
    }
    expect(Math.max(...usual)).toBeLessThan(50);
  },
);
