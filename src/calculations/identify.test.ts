import { expect, test } from "vitest";
import { compute } from "./index.ts";

/** Issues of an input that is refused, by the field they name. */
function refused(evidence: unknown, more: object = {}): readonly string[] {
  const answer = compute("identify", { evidence, ...more });
  if (answer.kind !== "invalid") throw new Error(answer.kind);
  return answer.issues.map(({ field }) => field);
}

const pressure = { kind: "pressure", pressure: "82 psig", temperature: "25 °C" };

test("texts and SI numbers ask the same", () => {
  const words = compute("identify", { evidence: [pressure] });
  const numbers = compute("identify", {
    evidence: [{ ...pressure, pressure: 82 * 6894.757293168 + 101_325, temperature: 298.15 }],
  });
  if (words.kind !== "answer" || numbers.kind !== "answer") throw new Error("no answer");
  const leading = (answer: typeof words) =>
    (answer.result as { families: { id: string; probability: number }[] }).families[0];
  expect(leading(words)?.id).toBe(leading(numbers)?.id);
  expect(leading(words)?.probability).toBeCloseTo(leading(numbers)?.probability ?? 0, 6);
});

test("what cannot be is refused by its place, its value and what is accepted", () => {
  expect(refused([])).toEqual(["evidence"]);
  expect(refused([{ ...pressure, temperature: "200 °C" }])).toEqual(["evidence[0].temperature"]);
  expect(refused([{ ...pressure, pressure: 10 }])).toEqual(["evidence[0].pressure"]);
  expect(refused([{ ...pressure, pressureU: -1 }])).toEqual(["evidence[0].pressureU"]);
  expect(refused([{ kind: "fill", mass: "0 g", volume: "1 L" }])).toEqual(["evidence[0].mass"]);
  expect(refused([pressure, { kind: "label", declares: "unobtainium" }])).toEqual([
    "evidence[1].declares",
  ]);
  const parts = [
    { substance: "R134a", percent: 80 },
    { substance: "R22", percent: 40 },
  ];
  expect(refused([{ kind: "identifier", parts }])).toEqual(["evidence[0].parts"]);
  expect(refused([{ kind: "guess" }])).toEqual(["evidence"]);
  expect(refused([pressure], { prior: { R134a: -1 } })).toEqual(["prior.R134a"]);
  const sure = { kind: "detector", detects: "halogen", responded: true, falseNo: 0 };
  expect(refused([sure])).toEqual(["evidence[0].falseNo"]);
});

const ran = {
  kind: "running",
  vehicle: { preset: "large-orifice" },
  label: "R134a",
  charge: "0.9 kg",
  runs: [{ ambient: "30 °C", humidity: 0.5, readings: { low: "35 psig", high: "210 psig" } }],
};

test("a run is refused by its place in it", () => {
  const unknown = { ...ran, label: "unobtainium", charge: "0 g" };
  expect(refused([unknown])).toEqual(["evidence[0].charge", "evidence[0].label"]);
  expect(refused([{ ...ran, runs: [] }])).toEqual(["evidence[0].runs"]);
  const hot = { ...ran.runs[0], ambient: "90 °C" };
  expect(refused([{ ...ran, runs: [hot] }])).toEqual(["evidence[0].runs[0].ambient"]);
  const nothing = { ...ran.runs[0], readings: { duty: 0.5 } };
  expect(refused([{ ...ran, runs: [nothing] }])).toEqual(["evidence[0].runs[0].readings"]);
});

test("a still probable content that burns is cautioned against, and no flame is ever offered", () => {
  const answer = compute("identify", {
    evidence: [pressure, { kind: "label", declares: "r-134a", trust: "50 %" }],
  });
  if (answer.kind !== "answer") throw new Error(answer.kind);
  expect(answer.cautions.join(" ")).toMatch(/may burn/);
  expect(answer.cautions.join(" ")).toMatch(/Never test an unknown gas with a flame/);
});
