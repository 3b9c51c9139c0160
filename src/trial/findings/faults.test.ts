import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { project } from "../project.ts";
import type { StoredEvent } from "../view.ts";
import { faultQuestion } from "./faults.ts";

const log = JSON.parse(readFileSync("data/demonstration/harbour.json", "utf8")) as {
  readonly events: readonly StoredEvent[];
};
interface Run {
  readonly name: string;
  readonly speed?: number;
  readonly readings: Readonly<Record<string, unknown>>;
}
interface Asked {
  readonly runs: readonly Run[];
  readonly baseline?: readonly Run[];
}

function asked(stage: "prove" | "restore", events: readonly StoredEvent[] = log.events) {
  const question = faultQuestion(project(events), stage);
  if (question?.kind !== "asked") throw new Error("nothing is asked");
  return { question, input: question.input as unknown as Asked };
}

describe("the question of a stage, in the demonstration", () => {
  test("Prove: the latest runs together, parked and on the road, a repeat left out by name", () => {
    const { question, input } = asked("prove");
    expect(input.runs.length).toBe(4);
    expect(input.runs.map(({ name }) => name)).toEqual(question.runs.map(({ name }) => name));
    expect(new Set(question.runs.map(({ condition }) => condition)).size).toBeGreaterThan(1);
    expect(question.left.length).toBeGreaterThan(0);
    expect(input.baseline).toBeUndefined();
  });

  test("a pressure at rest is asked once, however many runs it is nearest to", () => {
    const { input } = asked("prove");
    const statics = input.runs.filter(({ readings }) => "static" in readings);
    expect(statics.length).toBe(1);
    expect(Object.keys(statics[0]?.readings ?? {})).toContain("metal");
  });

  test("Restore: the runs of Prove are its baseline", () => {
    const { question, input } = asked("restore");
    expect(question.runs.every(({ stage }) => stage === "restore")).toBe(true);
    expect(input.baseline?.map(({ name }) => name)).toEqual(question.baseline);
    expect(question.baseline.length).toBeGreaterThan(1);
  });

  test("what was assumed is told once, with the runs that it concerns", () => {
    const { question } = asked("prove");
    const texts = question.assumed.map(({ text }) => text);
    expect(new Set(texts).size).toBe(texts.length);
    for (const { runs } of question.assumed) {
      expect(runs.length).toBeGreaterThan(0);
      for (const run of runs) expect(run).toBeLessThan(question.runs.length);
    }
  });

  test("no run on the label refrigerant, no question", () => {
    const without = log.events.filter(({ type }) => type !== "run-recorded");
    expect(faultQuestion(project(without), "prove")).toBeUndefined();
  });
});
