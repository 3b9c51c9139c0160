import { Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler } from "kysely";
import { afterEach, expect, test, vi } from "vitest";
import type { Tables } from "./schema.ts";
import { seenDevices } from "./seen.ts";

afterEach(() => {
  vi.useRealTimers();
});

/** A database that only says what it was asked. */
function listener() {
  const asked: (readonly unknown[])[] = [];
  const connection = {
    executeQuery: ({ parameters }: { readonly parameters: readonly unknown[] }) => {
      asked.push(parameters);
      return Promise.resolve({ rows: [] });
    },
    streamQuery: () => {
      throw new Error("not asked for");
    },
  };
  const nothing = () => Promise.resolve();
  const db = new Kysely<Tables>({
    dialect: {
      createAdapter: () => new SqliteAdapter(),
      createIntrospector: (over) => new SqliteIntrospector(over),
      createQueryCompiler: () => new SqliteQueryCompiler(),
      createDriver: () => ({
        ...{ init: nothing, destroy: nothing, releaseConnection: nothing },
        ...{ beginTransaction: nothing, commitTransaction: nothing, rollbackTransaction: nothing },
        acquireConnection: () => Promise.resolve(connection),
      }),
    },
  });
  return { db, asked };
}

test("thousands of requests of some devices are one statement a minute", async () => {
  vi.useFakeTimers();
  const { db, asked } = listener();
  const seen = seenDevices(db);
  for (let i = 0; i < 3000; i++) seen.note(`device ${i % 3}`, `2026-06-14T08:00:${10 + (i % 50)}Z`);
  await vi.advanceTimersByTimeAsync(59_000);
  expect(asked).toEqual([]);
  await vi.advanceTimersByTimeAsync(2_000);
  expect(asked).toEqual([["2026-06-14T08:00:59Z", "device 0", "device 1", "device 2"]]);
  await vi.advanceTimersByTimeAsync(600_000);
  expect(asked).toHaveLength(1);
});
