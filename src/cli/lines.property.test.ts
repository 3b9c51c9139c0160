import fc from "fast-check";
import { expect, test } from "vitest";
import { terminal } from "../../test/doors/terminal.ts";

const value = fc.oneof(
  fc.double(),
  fc.constantFrom("1e999", "-1e999", "NaN", "Infinity", "-0", "1e-400", "0x10", "null", "[]", "{}"),
);
const line = fc.oneof(
  fc.string({ unit: "binary", maxLength: 40 }),
  fc.json({ maxDepth: 4 }),
  value.map((x) => `{"x": ${x}}`),
  fc.constantFrom("", " ", "\ufeff", "{", '{"x":4}', '{"__proto__":{"x":4}}', '{"x":4,"x":-4}'),
  fc.integer({ min: 1, max: 3000 }).map((n) => "[".repeat(n)),
  fc.integer({ min: 1, max: 3000 }).map((n) => `{"x":${"[".repeat(n)}${"]".repeat(n)}}`),
);

test("10,000 lines of any kind: one line of JSON for each, never NaN", async () => {
  const input = fc
    .sample(line, { numRuns: 10_000, seed: 20260614 })
    .map((text) => text.replaceAll("\n", " "));
  const { code, out, err } = await terminal(["compute", "root", "--lines"], {
    input: [input.map((text) => `${text}\n`).join("")],
  });
  expect([code, err]).toEqual([0, ""]);
  const answers = out.split("\n").slice(0, -1);
  expect(answers).toHaveLength(10_000);
  for (const answer of answers) {
    // JSON has no NaN of its own; one that slipped through would be written as null.
    const parsed = JSON.parse(answer) as { error?: object; result?: { root: unknown } };
    if (parsed.error === undefined) expect(parsed.result?.root).toBeTypeOf("number");
  }
});
