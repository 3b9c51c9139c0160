import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { note } from "../../test/doors/sample-events.ts";
import {
  canonicalText,
  chainHash,
  chainStart,
  logSeal,
  type StoredEvent,
  verifyChain,
} from "./index.ts";

const run = (numRuns = 300) => ({ seed: 20260614, numRuns });
const texts = fc.array(fc.string({ unit: "grapheme", maxLength: 200 }), { maxLength: 30 });
const logs = fc
  .uniqueArray(fc.nat(500), { maxLength: 25 })
  .map((numbers) => numbers.map((n) => note(n, { text: `text ${n % 7}` })));

function chained(contents: readonly string[]) {
  let hash = chainStart;
  return contents.map((content, i) => {
    hash = chainHash(hash, content);
    return { seq: i + 1, content, hash };
  });
}

// Against another implementation of SHA-256: the one that comes with Node (OpenSSL).
test("a chain's hash is SHA-256 of what the model page writes down", () => {
  fc.assert(
    fc.property(texts, (contents) => {
      let expected = chainStart;
      for (const content of contents) {
        expected = createHash("sha256")
          .update(`coldproof-chain-1\n${expected}\n${content}`, "utf8")
          .digest("hex");
      }
      expect(chained(contents).at(-1)?.hash ?? chainStart).toBe(expected);
    }),
    run(),
  );
});

test("a chain verifies whole, and piece by piece", () => {
  fc.assert(
    fc.property(texts, fc.nat(30), (contents, at) => {
      const rows = chained(contents);
      const whole = verifyChain(rows);
      expect(whole).toEqual({
        kind: "sound",
        count: rows.length,
        head: rows.at(-1)?.hash ?? chainStart,
      });
      const first = verifyChain(rows.slice(0, at));
      if (first.kind !== "sound") throw new Error("the beginning of a sound chain is sound");
      expect(verifyChain(rows.slice(at), first)).toEqual(whole);
    }),
    run(),
  );
});

test("whatever is changed, dropped, doubled or swapped is found at its place", () => {
  const change = fc.constantFrom("content", "hash", "drop", "double", "swap" as const);
  const several = fc.array(fc.string({ maxLength: 20 }), { minLength: 2, maxLength: 20 });
  fc.assert(
    fc.property(several, fc.nat(), change, (contents, where, what) => {
      const rows = chained(contents);
      const i = where % (rows.length - 1);
      const [row, next] = [rows[i], rows[i + 1]];
      if (row === undefined || next === undefined) throw new Error("two rows at least");
      const altered = { ...row, content: `${row.content}.` };
      const changed = {
        content: [...rows.slice(0, i), altered, ...rows.slice(i + 1)],
        hash: [...rows.slice(0, i), { ...row, hash: next.hash }, ...rows.slice(i + 1)],
        drop: [...rows.slice(0, i), ...rows.slice(i + 1)],
        double: [...rows.slice(0, i + 1), row, ...rows.slice(i + 1)],
        swap: [...rows.slice(0, i), next, row, ...rows.slice(i + 2)],
      }[what];
      const verdict = verifyChain(changed);
      expect(verdict.kind).toBe("broken");
      expect(verdict).toMatchObject({ seq: what === "double" ? i + 2 : i + 1 });
    }),
    run(),
  );
});

test("a log's seal does not know order or repetition, and knows every content", () => {
  fc.assert(
    fc.property(logs, fc.infiniteStream(fc.nat()), (log, order) => {
      const shuffled: StoredEvent[] = [];
      for (const event of [...log, ...log.slice(0, 3)]) {
        shuffled.splice((order.next().value ?? 0) % (shuffled.length + 1), 0, event);
      }
      expect(logSeal(shuffled)).toBe(logSeal(log));
      const [first, ...rest] = log;
      if (first === undefined) return;
      expect(logSeal(rest)).not.toBe(logSeal(log));
      expect(logSeal([{ ...first, device: "another" }, ...rest])).not.toBe(logSeal(log));
    }),
    run(),
  );
});

test("no events: the chain's start; one event: its chain of one", () => {
  expect(logSeal([])).toBe(chainStart);
  expect(logSeal([note(1)])).toBe(chainHash(chainStart, canonicalText(note(1))));
});
