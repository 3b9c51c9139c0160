import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startPostgres, type TestPostgres } from "../doors/postgres.ts";
import { type Measured, measureLoad } from "../load/devices.ts";
import { importLog } from "../load/import.ts";
import { writeReport } from "../load/report.ts";

// Needs a quiet machine: the devices, the server and PostgreSQL share its cores. How quiet it was stands
// in the result as `cores.others`.
const folder = mkdtempSync(join(tmpdir(), "coldproof-load-"));
let postgres: TestPostgres;
let files = 0;
beforeAll(async () => {
  postgres = await startPostgres();
});
afterAll(async () => {
  await postgres.stop();
  rmSync(folder, { recursive: true });
});

async function load(kind: string, perDevice: number, more: Partial<Measured> = {}) {
  const onFile = kind === "SQLite";
  const place = onFile ? join(folder, `${++files}.sqlite`) : await postgres.database();
  const where = onFile ? { place } : { place, database: postgres.pid() };
  const found = await measureLoad({
    ...where,
    port: 5075,
    devices: 200,
    seconds: 15,
    perDevice,
    ...more,
  });
  console.log(kind, `${200 * perDevice} a second`, found);
  expect(found.failed).toBe(0);
  return found;
}

test.for(["SQLite", "PostgreSQL"])(
  "200 devices, a reading a second each, on %s: 99 of 100 acknowledged within 50 ms",
  async (kind) => {
    const usual = await load(kind, 1);
    for (const perDevice of [2, 4]) await load(kind, perDevice);
    expect(usual.all.p99).toBeLessThan(50);
  },
);

test("while reports are written one after the other, devices are acknowledged as before", async () => {
  const { later } = await load("SQLite", 1, { meanwhile: writeReport });
  expect(later.p99).toBeLessThan(50);
});

test.for(["SQLite", "PostgreSQL"])(
  "while logs of 20,000 events are taken in one after the other, on %s",
  async (kind) => {
    const { later } = await load(kind, 1, { meanwhile: importLog(20_000) });
    expect(later.longest).toBeLessThan(500);
  },
);
