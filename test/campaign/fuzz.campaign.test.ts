import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { expect, test } from "vitest";
import { fuzz } from "../doors/fuzz.ts";

// The collector, so that what is left on the heap is what the server keeps.
setFlagsFromString("--expose_gc");
globalThis.gc = runInNewContext("gc") as NonNullable<typeof globalThis.gc>;

test.for(["alone", "shared"] as const)(
  "100,000 fuzzed requests, server %s: no 500, no crash, memory flat",
  async (kind) => {
    const { counts, heap } = await fuzz(kind, { count: 100_000, seed: 7 });
    console.log(
      kind,
      Object.fromEntries(counts),
      heap.map((size) => size.toFixed(1)),
    );
    const [first = 0] = heap;
    const last = heap.at(-1) ?? 0;
    expect(last - first).toBeLessThan(10);
  },
);
