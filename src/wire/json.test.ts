import fc from "fast-check";
import { expect, test } from "vitest";
import { maximumDepth, parseJson } from "./json.ts";

test("reads what JSON.parse reads", () => {
  fc.assert(
    fc.property(fc.json({ maxDepth: 8 }), (text) => {
      expect(parseJson(text, "body")).toEqual({ kind: "json", value: JSON.parse(text) as unknown });
    }),
    { seed: 1, numRuns: 500 },
  );
});

test("counts nesting outside strings only", () => {
  const nested = (n: number) => "[".repeat(n) + "]".repeat(n);
  expect(parseJson(nested(maximumDepth), "body").kind).toBe("json");
  expect(parseJson(nested(maximumDepth + 1), "body").kind).toBe("invalid");
  expect(parseJson(nested(5_000_000), "body").kind).toBe("invalid");
  expect(parseJson(JSON.stringify("[".repeat(500) + '\\"'), "body").kind).toBe("json");
});

test("names the field and shows only the beginning of a long text", () => {
  const outcome = parseJson("x".repeat(1000), "line 3");
  expect(outcome).toEqual({
    kind: "invalid",
    issues: [{ field: "line 3", value: `${"x".repeat(80)}…`, accepted: "valid JSON" }],
  });
});
