import { expect, test } from "vitest";
import { compute } from "./compute.ts";

interface Cycle {
  readonly corners: readonly { readonly T: number; readonly h: number; readonly s: number }[];
  readonly runs: boolean;
  readonly cooling: number | null;
  readonly work: number | null;
  readonly cop: number | null;
}

const pressures = { low: 3e5, high: 1.5e6, suction: 283.15, liquid: 318.15 };

function loop(input: Record<string, unknown>): Cycle {
  const answer = compute("cycle", input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer.result as Cycle;
}

test.each([{ fluid: "R134a" }, { fluid: "R1234yf" }, { blend: "R441A" }])(
  "a lossless loop keeps its balances: %o",
  (substance) => {
    const { corners, cooling, work, cop } = loop({ ...substance, ...pressures });
    const [one, two, three, four] = corners;
    if (!one || !two || !three || !four) throw new Error("four corners");
    expect(two.s / one.s).toBeCloseTo(1, 8);
    expect(four.h / three.h).toBeCloseTo(1, 8);
    // First law over the loop: what the condenser gives off is cooling plus work.
    if (cooling === null || work === null) throw new Error("the loop runs");
    expect((two.h - three.h) / (cooling + work)).toBeCloseTo(1, 9);
    // Second law: no loop between the two saturation temperatures beats Carnot's.
    expect(cop).toBeLessThan(four.T / (three.T - four.T));
    expect(cop).toBeGreaterThan(2);
  },
);

test("a measured discharge costs more work than the lossless one", () => {
  const lossless = loop({ fluid: "R134a", ...pressures });
  const measured = loop({ fluid: "R134a", ...pressures, discharge: 353.15 });
  expect(measured.work).toBeGreaterThan(lossless.work ?? Infinity);
  expect(measured.cooling).toBe(lossless.cooling);
});

test("pressures the wrong way round are refused by the field that is wrong", () => {
  const answer = compute("cycle", { fluid: "R134a", ...pressures, high: 2e5 });
  expect(answer).toMatchObject({ kind: "invalid", issues: [{ field: "high" }] });
});

// R744 at 45 °C and 15 bar is a gas above its critical temperature, not a liquid.
test.each([
  { fluid: "R134a", liquid: 333.15 },
  { fluid: "R744", liquid: 318.15 },
])("vapour in the liquid line is no loop, and the answer says so: %o", (readings) => {
  const answer = compute("cycle", { ...pressures, ...readings });
  expect(answer).toMatchObject({ kind: "answer", result: { runs: false, cooling: null } });
  expect(answer.kind === "answer" && answer.cautions.join()).toMatch(/liquid line holds vapour/);
});

test("a side beyond the equation says so", () => {
  const answer = compute("cycle", { fluid: "R134a", ...pressures, suction: 900 });
  expect(answer.kind).toBe("no-answer");
});
