import { describe, expect, test } from "vitest";
import { compute } from "./index.ts";

interface Judged {
  readonly verdict: string;
  readonly statements: readonly {
    readonly kind: string;
    readonly verdict: string;
    readonly because: string;
    readonly evidence: readonly { readonly text: string }[];
    readonly wouldDecide?: string;
  }[];
}
function judged(input: unknown): Judged {
  const answer = compute("claim", input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer.result as Judged;
}
const verdict = (input: unknown) => judged(input).verdict;

describe("equal masses", () => {
  test("6 oz of a hydrocarbon blend is 13.7 oz of R134a by volume of liquid only", () => {
    const result = judged({ text: "6 oz equals 13.7 oz of R134a", blend: "HC 50/40/10" });
    expect(result.verdict).toBe("contradicted");
    expect(result.statements[0]?.because).toMatch(/volume of liquid only/u);
    // 13.7 oz is 388 g; volume ratio 0.440 (CoolProp 8.0.0).
    expect(result.statements[0]?.evidence[0]?.text).toMatch(
      /387 g of R134a|388 g of R134a|386 g of R134a/u,
    );
  });

  test("of itself it is equal", () => {
    const same = { text: "340 g equals 12 oz of R-134a", fluid: "R134a" };
    expect(verdict(same)).toBe("supported");
    expect(verdict({ ...same, declaredOnly: true })).toBe("undecided");
  });

  test("without a composition what no refrigerant can do is contradicted", () => {
    const far = judged({ text: "240 g equals 680 g of R134a" });
    expect(far.verdict).toBe("contradicted");
    expect(far.statements[0]?.because).toMatch(/whatever is in the can/iu);
    expect(verdict({ text: "6 oz equals 12 oz of R134a" })).toBe("undecided");
  });

  test("by kind, with masses apart from the text", () => {
    const apart = { kind: "equals-mass", mass: "6 oz", equals: "13.7 oz", of: "r-134a" };
    expect(verdict({ ...apart, blend: "HC 50/40/10" })).toBe("contradicted");
  });
});

describe("climate", () => {
  test.each([
    ["No ozone depletion", "R290", "supported"],
    ["No ozone depletion", "R12", "contradicted"],
    ["No ozone depletion", "R13I1", "undecided"],
    ["Zero GWP", "R134a", "contradicted"],
    // AR4 3.3 (from memory), AR6 0.02 (table 7.SM.7): the reports differ about zero.
    ["Zero GWP", "R290", "undecided"],
    ["Low GWP", "R290", "supported"],
    // AR4 124, AR5 138, AR6 164: on both sides of 150.
    ["Low GWP", "R152a", "undecided"],
    ["GWP below 5", "R1234yf", "supported"],
  ])("%s, %s: %s", (text, fluid, expected) => {
    expect(verdict({ text, fluid })).toBe(expected);
  });

  test("nobody knows without a composition, and it says what would tell", () => {
    const result = judged({ text: "No ozone depletion" });
    expect(result.verdict).toBe("undecided");
    expect(result.statements[0]?.wouldDecide).toMatch(/identifier/u);
  });
});

describe("flame and fit", () => {
  test("non-flammable", () => {
    expect(verdict({ text: "Non-flammable", fluid: "R290" })).toBe("contradicted");
    expect(verdict({ text: "Non-flammable", fluid: "R134a" })).toBe("supported");
    expect(verdict({ text: "Non-flammable", flammableMark: true })).toBe("contradicted");
    expect(verdict({ text: "Non-flammable" })).toBe("undecided");
  });

  test("drop-in for a vehicle made for a fluid that does not burn", () => {
    expect(verdict({ text: "A drop-in", fluid: "R290" })).toBe("contradicted");
    const mild = judged({ text: "A drop-in", fluid: "R134a", reference: "R12" });
    expect(mild.verdict).toBe("undecided");
    // R134a over R12, ratio of 1/0.974 by volume (CoolProp 8.0.0).
    expect(mild.statements[0]?.evidence[0]?.text).toMatch(/1\.03 times/u);
  });

  test("an approval is no measurement", () => {
    expect(verdict({ text: "Approved by the authority", fluid: "R134a" })).toBe("undecided");
  });
});

describe("readings of a trial", () => {
  const row = {
    quantity: "high-side",
    condition: "parked-idle",
    basis: "equal-conditions",
    effect: -2e5,
  };
  const lower = (change: object) =>
    verdict({ text: "Lower head pressure", fluid: "R290", trial: [{ ...row, ...change }] });

  test("decide where the whole interval lies on one side in equal conditions", () => {
    expect(lower({ lower: -3e5, upper: -1e5 })).toBe("supported");
    expect(lower({ effect: 2e5, lower: 1e5, upper: 3e5 })).toBe("contradicted");
    expect(lower({ u: 1.5e5 })).toBe("undecided");
  });

  test("do not decide in unequal conditions", () => {
    const measured = { basis: "as-measured", u: 1e4 };
    expect(lower({ ...measured, unequal: "It was 5 K hotter." })).toBe("undecided");
    expect(lower(measured)).toBe("supported");
  });

  test("need an interval", () => {
    const answer = compute("claim", { text: "Lower head pressure", trial: [row] });
    expect(answer).toMatchObject({ kind: "invalid", issues: [{ field: "trial[0]" }] });
  });
});

test("neither a text nor a kind is an issue", () => {
  expect(compute("claim", { fluid: "R134a" })).toMatchObject({
    kind: "invalid",
    issues: [{ field: "text" }],
  });
});
