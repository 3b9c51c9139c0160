import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { parseExport, redacted, exportTrial } from "../trial/index.ts";
import type { CombinedResult } from "./combine-trials.ts";
import { compute, findCalculation } from "./index.ts";

const trial = (name: string): unknown =>
  JSON.parse(readFileSync(`data/demonstration/${name}.json`, "utf8"));

function combined(input: unknown): CombinedResult {
  const answer = compute("combine-trials", input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  expect(findCalculation("combine-trials")?.output.safeParse(answer.result).error).toBeUndefined();
  return answer.result as CombinedResult;
}

// Two studies can be worked out by hand. Effects 0 and 2, u 0.5 each: Q = 8, tau² = (2² / 2) - 0.25 = 1.75
// (Paule and Mandel, Q = k - 1), mean 1, se = sqrt(2 / 2) = 1, I² = 7/8; t(0.975, 1) = 12.706 (Student's table).
test("two effects give what the formulas give by hand", () => {
  const effects = [
    { name: "one", effect: 0, u: 0.5 },
    { name: "two", effect: 2, u: 0.5 },
  ];
  const [group] = combined({ effects }).groups;
  expect(group?.summary?.mean).toBeCloseTo(1, 10);
  expect((group?.summary?.tau ?? 0) ** 2).toBeCloseTo(1.75, 6);
  expect(group?.summary?.heterogeneity).toBeCloseTo(0.875, 10);
  expect(group?.summary?.interval.to).toBeCloseTo(1 + 12.706, 2);
  expect(group?.trials.map(({ weight }) => weight)).toEqual([0.5, 0.5]);
});

test("a trial counts once, redacted or not, and products meet by fluid or name", () => {
  const hill = trial("hill-town");
  const parsed = parseExport(hill);
  if (parsed.kind !== "export") throw new Error("the demonstration does not parse");
  const copy = exportTrial(redacted(parsed.events, { hide: ["places"], words: [] }).events);
  const twice = combined({ trials: [hill, copy] });
  expect(twice.leftOut.join(" ")).toMatch(/counts once/);
  for (const { trials, summary } of twice.groups) {
    expect([trials.length, summary]).toEqual([1, undefined]);
  }
  expect(combined({ trials: [copy, hill] }).leftOut).toHaveLength(1);
}, 60_000);

test("what cannot be used is named", () => {
  const field = (input: unknown): string | undefined => {
    const answer = compute("combine-trials", input);
    return answer.kind === "invalid" ? answer.issues[0]?.field : answer.kind;
  };
  expect(field({})).toBe("trials");
  expect(field({ trials: [{}] })).toBe("trials");
  expect(field({ trials: [{}, {}] })).toMatch(/^trials\.0\./);
  expect(field({ effects: [{ name: "a", effect: 1, u: 1 }] })).toBe("effects");
  expect(
    field({
      effects: [
        { name: "a", effect: 1, u: 0 },
        { name: "b", effect: 1, u: 1 },
      ],
    }),
  ).toBe("effects");
});
