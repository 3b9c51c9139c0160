import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { compute, findCalculation } from "./index.ts";

const trial: unknown = JSON.parse(readFileSync("data/demonstration/hill-town.json", "utf8"));

test("compare answers an exported trial by its own schema, the same for a seed", () => {
  const answer = compute("compare", { trial, seed: 3 });
  if (answer.kind !== "answer") throw new Error(answer.kind);
  expect(findCalculation("compare")?.output.safeParse(answer.result).error).toBeUndefined();
  expect(compute("compare", { trial, seed: 3 })).toEqual(answer);
  expect(answer.assumptions?.join(" ")).toMatch(/counts as no evidence/u);
});

test("compare names what it cannot use", () => {
  const wrong = compute("compare", { trial: { format: "other" } });
  expect(wrong.kind === "invalid" && wrong.issues[0]?.field).toMatch(/^trial\./u);
});

test("plan tells how many runs find a difference, and what none finds", () => {
  const ask = (difference: string) =>
    compute("plan", {
      vehicle: { preset: "midsize-expansion" },
      conditions: [{ kind: "parked-idle", ambient: "30 °C" }, { kind: "road-steady" }],
      difference,
    });
  const answer = ask("6 K");
  if (answer.kind !== "answer") throw new Error(answer.kind);
  expect(findCalculation("plan")?.output.safeParse(answer.result).error).toBeUndefined();
  expect(answer.result).toMatchObject({ runs: 1 });
  const none = ask("0.1 K");
  expect(none.kind === "answer" && none.result).toMatchObject({ runs: null });
});

test("plan names the condition that it cannot use", () => {
  const wrong = compute("plan", {
    vehicle: { preset: "midsize-expansion" },
    conditions: [{ kind: "parked-idle", ambient: "90 °C" }],
  });
  expect(wrong.kind === "invalid" && wrong.issues[0]?.field).toBe("conditions.0.ambient");
});
