import { beforeAll, expect, test } from "vitest";
import { identify } from "../../../evidence/index.ts";
import { restingFindings, type RestingFindings } from "../../findings/answer.ts";
import type {
  Answer,
  AnswerQuestion,
  AnswerVerdict,
  ReasonFact,
} from "../../findings/answer/view.ts";
import { contentsOf } from "../../findings/contents.ts";
import { fairComparisonOf } from "../../findings/fair-comparison.ts";
import { holdFinding } from "../../findings/hold.ts";
import { project } from "../../project.ts";
import { harbour } from "./harbour.ts";
import { steadyState } from "./system.ts";
import { harbourTruth } from "./truth.ts";

/** What is really so, from the hidden truth alone; where readings cannot decide, "undecided" is no error. */

const view = project(harbour());
const margin = view.opened?.margin ?? NaN;
let findings: RestingFindings;
beforeAll(() => {
  const identified = new Map(
    view.products.map(({ id }) => [
      id,
      identify(contentsOf(view, id).items.map(({ evidence }) => evidence)),
    ]),
  );
  findings = restingFindings(view, { fair: fairComparisonOf(view), identified });
}, 60_000);

const answer = (name: string, question: AnswerQuestion): Answer => {
  const found = findings.answers.find((one) => one.name === name && one.question === question);
  if (!found) throw new Error(`no answer ${question} for ${name}`);
  return found;
};
const kinds = ({ reasons }: Answer, verdict: AnswerVerdict): ReasonFact["kind"][] =>
  reasons.filter((one) => one.verdict === verdict).map(({ fact }) => fact.kind);
const claim = (name: string, text: string) =>
  findings.claims
    .find((one) => one.name === name)
    ?.claims.find((one) => one.text === text)
    ?.statements.map(({ verdict }) => verdict);

/** How much warmer a can's whole charge blows in equal weather, K: from the hidden vehicle itself. */
function trueEffect(can: keyof typeof harbourTruth.cans, charge: number, where: "idle" | "road") {
  const weather = { ambient: 302.65, humidity: 0.48 };
  const product = steadyState(harbourTruth.cans[can].composition, charge, weather, where);
  const label = steadyState(harbourTruth.label, harbourTruth.found, weather, where);
  return product.vent - label.vent;
}

test("Heron holds what it says, and no verdict speaks against it", () => {
  expect(answer("Heron", "holds").verdict).toBe("yes");
  expect(kinds(answer("Heron", "holds"), "no")).toEqual([]);
  expect(answer("Heron", "safe").verdict).not.toBe("no");
  expect(claim("Heron", "Contains pure R134a.")).toEqual(["supported"]);
});

test("Kestrel holds less than it says, does not equal what it claims, and burns", () => {
  expect(answer("Kestrel", "holds").verdict).toBe("no");
  expect(kinds(answer("Kestrel", "holds"), "no")).toContain("net-mass");
  expect(claim("Kestrel", "6 oz net.")).toEqual(["contradicted"]);
  expect(claim("Kestrel", "6 oz equals 17 oz of R134a.")).toEqual(["contradicted"]);
  expect(answer("Kestrel", "safe").verdict).toBe("no");
  expect(kinds(answer("Kestrel", "safe"), "no")).toContain("flame");
});

test("Magpie is not what it says: R22 is found in it", () => {
  expect(answer("Magpie", "holds").verdict).toBe("no");
  expect(claim("Magpie", "Contains pure R134a.")).toEqual(["contradicted"]);
  expect(answer("Magpie", "safe").verdict).toBe("no");
  const identity = answer("Magpie", "holds").reasons.find(({ fact }) => fact.kind === "identity");
  if (identity?.fact.kind !== "identity") throw new Error("no identity");
  const r22 = identity.fact.parts.find(({ fluid }) => fluid === "R22");
  const [hidden = NaN] = harbourTruth.cans.magpie.composition.fractions;
  expect(r22?.from).toBeLessThan(hidden);
  expect(r22?.to).toBeGreaterThan(hidden);
});

test.each([
  ["Heron", "heron", 0.6],
  ["Kestrel", "kestrel", 0.126],
  ["Magpie", "magpie", 0.6],
] as const)("%s: no wrong verdict on its vent", (name, can, charge) => {
  const effects = (["idle", "road"] as const).map((where) => trueEffect(can, charge, where));
  const truly = effects.some((effect) => effect > margin) ? "no" : "yes";
  expect([truly, "undecided"]).toContain(answer(name, "cools").verdict);
  for (const { fact } of answer(name, "cools").reasons) {
    if (fact.kind !== "vent") continue;
    const { condition, interval, verdict } = fact.row;
    const effect = effects[condition === "parked-idle" ? 0 : 1] ?? NaN;
    // The truth in one weather against an interval over two: half a kelvin is what weather makes of it.
    expect(effect).toBeGreaterThan(interval.from - 0.5);
    expect(effect).toBeLessThan(interval.to + 0.5);
    if (verdict === "warmer") expect(effect).toBeGreaterThan(margin);
    if (verdict === "colder") expect(effect).toBeLessThan(-margin);
  }
});

test("the vehicle is back as it was, by nothing but its own readings", () => {
  const restored = answer("Six-seat harbour van", "restored");
  expect(["yes", "undecided"]).toContain(restored.verdict);
  expect(kinds(restored, "no")).toEqual([]);
});

test("the first hold tells of the leak, those after it of none", () => {
  const causes = view.traces
    .filter(({ kind }) => kind === "hold")
    .map((trace) => [trace.fileName.includes("first"), holdFinding(view, trace)?.analysis.cause]);
  for (const [first, cause] of causes) {
    if (first === true) expect(cause).toBe("leaking");
    else expect(cause).not.toBe("leaking");
  }
});

test("without comparison and identification nothing is decided that rests on them", () => {
  const bare = restingFindings(view, {}).answers;
  const of = (question: AnswerQuestion) => bare.filter((one) => one.question === question);
  expect(of("cools").map(({ verdict }) => verdict)).toEqual(of("cools").map(() => "undecided"));
  expect(of("restored").map(({ verdict }) => verdict)).not.toContain("yes");
  expect(of("safe").map(({ verdict }) => verdict)).not.toContain("yes");
});
