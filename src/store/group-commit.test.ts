import { expect, test } from "vitest";
import { note } from "../../test/doors/sample-events.ts";
import { distinct } from "./content.ts";
import { groupCommit } from "./group-commit.ts";
import type { WriteFailure } from "./port.ts";

/** A medium that fails for every group that holds a certain event; counts how often it was asked. */
function commits(failure: WriteFailure | "fault", bad: (ids: readonly string[]) => boolean) {
  let asked = 0;
  const made = groupCommit({
    lanes: 1,
    write: (batches) => {
      asked++;
      const ids = batches.flatMap(({ entries }) => entries.map(({ event }) => event.id));
      if (bad(ids)) return Promise.reject(new Error(failure));
      const one = { kind: "appended", accepted: [], duplicates: [] } as const;
      return Promise.resolve({ outcomes: batches.map(() => one), news: [], ends: new Map() });
    },
    failureOf: () => (failure === "fault" ? undefined : failure),
    tell: () => undefined,
  });
  const append = (n: number) => made.append({ workspace: "home", ...distinct([note(n)]) });
  return { append, asked: () => asked };
}

test.for(["disk-full", "fault"] as const)(
  "%s: one batch does not take others down",
  async (why) => {
    const { append } = commits(why, (ids) => ids.includes(note(2).id));
    const [first, second, third] = await Promise.allSettled([append(1), append(2), append(3)]);
    expect([first, third]).toMatchObject([
      { value: { kind: "appended" } },
      { value: { kind: "appended" } },
    ]);
    expect(second).toMatchObject(
      why === "fault" ? { status: "rejected" } : { value: { kind: "failed", reason: "disk-full" } },
    );
  },
);

test("without a database a whole group is refused at once, not each batch after a wait", async () => {
  const { append, asked } = commits("unreachable", () => true);
  const all = await Promise.all(Array.from({ length: 50 }, (_, i) => append(i)));
  expect(new Set(all.map((one) => JSON.stringify(one)))).toEqual(
    new Set(['{"kind":"failed","reason":"unreachable"}']),
  );
  expect(asked()).toBe(1);
});
