import { expect, test } from "vitest";
import { fuzz } from "../../test/doors/fuzz.ts";

test("5,000 requests of any kind to one person's server: an answer to each, never a fault", async () => {
  const { counts } = await fuzz("alone", { count: 5_000, seed: 20260614 });
  // The generator reached past the guards: all these kinds of answer were given.
  for (const status of [200, 403, 404, 409, 415, 422]) expect([...counts.keys()]).toContain(status);
});

test("5,000 requests of any kind, with keys of any kind, to a shared server: the same", async () => {
  const { counts } = await fuzz("shared", { count: 5_000, seed: 20260615 });
  for (const status of [200, 201, 401, 403, 404, 409, 415, 422, 429]) {
    expect([...counts.keys()]).toContain(status);
  }
});
