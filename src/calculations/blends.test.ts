import { describe, expect, test } from "vitest";
import { compute } from "./index.ts";

function answered(name: string, input: unknown) {
  const answer = compute(name, input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer as typeof answer & { result: Record<string, unknown> };
}
interface Share {
  readonly fluid: string;
  readonly mass: number;
  readonly mole: number;
}
interface Phase {
  readonly kind: string;
  readonly share: number;
  readonly volumeShare: number;
  readonly rho: number;
  readonly h: number;
  readonly composition: readonly Share[];
}
const number = (result: Record<string, unknown>, key: string) => result[key] as number;
const cylinder = { volume: "12 L", mass: "5 kg", T: "25 °C" };

describe("saturation", () => {
  test("both points, each with the composition of its other phase", () => {
    const { result } = answered("saturation", { blend: "R407C", T: 298.15 });
    const { bubble, dew } = result as Record<string, { p: number; composition: Share[] }>;
    expect(bubble?.p).toBeGreaterThan(dew?.p ?? NaN);
    const light = (point: typeof bubble) => point?.composition[0]?.mass ?? NaN;
    expect(light(bubble)).toBeGreaterThan(0.23);
    expect(light(dew)).toBeLessThan(0.23);
    for (const point of [bubble, dew]) {
      const sum = point?.composition.reduce((total, { mole }) => total + mole, 0);
      expect(sum).toBeCloseTo(1, 12);
    }
  });

  test("glide at a pressure", () => {
    // CoolProp 8.0.0: glide of R441A at 101.325 kPa, 21 K.
    const { result } = answered("saturation", { blend: "R441A", p: 101325 });
    expect(Math.abs(number(result, "glide") - 21.2)).toBeLessThan(0.1);
  });

  test("with nitrogen: the point that exists, and why the other does not", () => {
    const { result } = answered("saturation", {
      blend: [
        { fluid: "R134a", mole: 0.7 },
        { fluid: "R728", mole: 0.3 },
      ],
      T: 298.15,
    });
    expect(result["dew"]).not.toBeNull();
    const gone = result["missing"] as { which: string; because: string }[] | undefined;
    expect(result["bubble"] === null).toBe(gone !== undefined);
  });

  test("above every such point there is no answer, with a reason", () => {
    const answer = compute("saturation", { blend: "R410A", T: 380 });
    expect(answer).toMatchObject({ kind: "no-answer", reason: "no-solution" });
  });

  test("q is for pure fluids", () => {
    const answer = compute("saturation", { blend: "R410A", T: 300, q: 0.5 });
    expect(answer).toMatchObject({ kind: "invalid", issues: [{ field: "q" }] });
  });

  test("an estimate says so, by which rule, and doubts more", () => {
    const fitted = answered("saturation", { blend: "R407C", T: 298.15 });
    expect(fitted.assumptions).toBeUndefined();
    const estimated = answered("saturation", { blend: "R435A", T: 298.15 });
    expect(estimated.assumptions?.join(" ")).toMatch(/RE170–R152a: no published parameters; est/);
    const relative = ({ result, uncertainty }: typeof fitted) =>
      (uncertainty?.["bubble.p"] ?? NaN) / (result["bubble"] as { p: number }).p;
    expect(relative(fitted)).toBeCloseTo(0.01, 9);
    expect(relative(estimated)).toBeGreaterThanOrEqual(0.05);
  });
});

describe("state", () => {
  test("the pairs of a blend lead back to one state", () => {
    const blend = "R407C";
    const at = answered("state", { blend, T: 298.15, q: 0.3 }).result;
    expect(at["q"]).toBeCloseTo(0.3, 9);
    const [T, p, h, s, rho] = ["T", "p", "h", "s", "rho"].map((key) => number(at, key));
    for (const pair of [
      { p, h },
      { p, s },
      { T, rho },
      { p, q: 0.3 },
      { T, p },
    ]) {
      const { result } = answered("state", { blend, ...pair });
      expect(number(result, "rho") / (rho ?? NaN)).toBeCloseTo(1, 7);
      expect(number(result, "q")).toBeCloseTo(0.3, 7);
    }
  });

  test("phases add up to the whole", () => {
    const { result } = answered("state", { blend: "R441A", p: "5 bar", h: 350e3 });
    const phases = result["phases"] as readonly Phase[];
    expect(phases.map(({ kind }) => kind)).toEqual(["liquid", "vapour"]);
    const sum = (of: (phase: Phase) => number) =>
      phases.reduce((total, phase) => total + of(phase), 0);
    expect(sum(({ share }) => share)).toBeCloseTo(1, 12);
    expect(sum(({ volumeShare }) => volumeShare)).toBeCloseTo(1, 9);
    expect(sum(({ share, h }) => share * h) / 350e3).toBeCloseTo(1, 9);
    // 3.1/54.8/6/36.1 % by mass of R170/R290/R600a/R600 (ASHRAE 34 table 4-2, from memory).
    for (const [i, whole] of [0.031, 0.548, 0.06, 0.361].entries()) {
      const parts = sum(({ share, composition }) => share * (composition[i]?.mass ?? NaN));
      expect(parts).toBeCloseTo(whole, 9);
    }
  });

  test("pairs that are not offered for blends are an issue", () => {
    const answer = compute("state", { blend: "R410A", T: 300, s: 1500 });
    expect(answer).toMatchObject({ kind: "invalid", issues: [{ field: "s" }] });
  });
});

describe("vessel", () => {
  test("a pure fluid with liquid shows its saturation pressure", () => {
    const { result } = answered("vessel", { fluid: "R134a", ...cylinder });
    const { p } = answered("saturation", { fluid: "R134a", T: "25 °C" }).result;
    expect(number(result, "p") / (p as number)).toBeCloseTo(1, 9);
    expect(number(result, "gauge")).toBeCloseTo(number(result, "p") - 101325, 6);
    // CoolProp 8.0.0: 1206.7 and 32.35 kg/m3 at 25 °C, so (5/0.012 - 32.35)/(1206.7 - 32.35) of the volume is liquid.
    expect(Math.abs(number(result, "liquidVolumeFraction") - 0.3273)).toBeLessThan(0.0005);
  });

  test("a blend lies between its bubble and dew pressure, by how much is liquid", () => {
    const pressure = (mass: string) =>
      number(answered("vessel", { blend: "R407C", ...cylinder, mass }).result, "p");
    const { bubble, dew } = answered("saturation", { blend: "R407C", T: "25 °C" }).result as Record<
      string,
      { p: number }
    >;
    const [little, much] = [pressure("1 kg"), pressure("10 kg")];
    expect(little).toBeGreaterThan(dew?.p ?? NaN);
    expect(much).toBeGreaterThan(little);
    expect(much).toBeLessThan(bubble?.p ?? NaN);
  });

  test("too full is a caution", () => {
    const { cautions } = answered("vessel", { fluid: "R134a", ...cylinder, mass: "13 kg" });
    expect(cautions.some((text) => text.startsWith("More than 80 %"))).toBe(true);
  });

  test("more than fits is no answer", () => {
    const answer = compute("vessel", { fluid: "R134a", ...cylinder, mass: "30 kg" });
    expect(answer).toMatchObject({ kind: "no-answer", reason: "outside-equation" });
  });
});

describe("withdraw", () => {
  const series = (from: string) =>
    answered("withdraw", { blend: "R407C", ...cylinder, from, steps: 4, until: 0.8 }).result[
      "points"
    ] as readonly { p: number; drawn: string; withdrawn: number; collected?: Share[] }[];

  test("from the top vapour, from the bottom liquid", () => {
    const [top, bottom] = [series("top"), series("bottom")];
    expect(top.length).toBe(5);
    expect([top[0]?.drawn, bottom[0]?.drawn]).toEqual(["vapour", "liquid"]);
    expect(top.at(-1)?.withdrawn).toBeCloseTo(4, 9);
    const light = (points: typeof top) => points[1]?.collected?.[0]?.mass ?? NaN;
    expect(light(top)).toBeGreaterThan(0.28);
    expect(Math.abs(light(bottom) - 0.23)).toBeLessThan(0.01);
  });

  test("says that a blend is charged as liquid", () => {
    const { cautions } = answered("withdraw", { blend: "R407C", ...cylinder, from: "top" });
    expect(cautions.some((text) => text.includes("charged as liquid"))).toBe(true);
  });
});

describe("air-in-system", () => {
  const fill = { fluid: "R134a", volume: "3 L", mass: "500 g", air: "4 g", T: "20 °C" };

  test("air adds about its own pressure in the room that the vapour has", () => {
    const { result, assumptions } = answered("air-in-system", { ...fill, T2: "40 °C" });
    const points = result["points"] as readonly Record<string, number>[];
    for (const { T, excess, liquidVolumeFraction, gauge, p } of points) {
      // Ideal gas: n R T/V with 4 g of 28.85 g/mol; the little that dissolves lowers it.
      const room = 3e-3 * (1 - (liquidVolumeFraction ?? NaN));
      const ideal = ((0.004 / 0.02885) * 8.314462618 * (T ?? NaN)) / room;
      expect((excess ?? NaN) / ideal).toBeGreaterThan(0.9);
      expect((excess ?? NaN) / ideal).toBeLessThan(1.02);
      expect((p ?? NaN) - (gauge ?? NaN)).toBeCloseTo(101325, 6);
    }
    expect(assumptions?.join(" ")).toMatch(/R134a–R728/);
  });

  test("the excess hardly grows with temperature, unlike the pressure of another refrigerant", () => {
    const { result } = answered("air-in-system", { ...fill, T2: "40 °C" });
    const [cold, warm] = result["points"] as readonly Record<string, number>[];
    expect((warm?.["excess"] ?? NaN) / (cold?.["excess"] ?? NaN)).toBeLessThan(1.15);
    expect((warm?.["without"] ?? NaN) / (cold?.["without"] ?? NaN)).toBeGreaterThan(1.7);
  });

  test("too many parts beside the gas is an issue", () => {
    const fluids = ["R12", "R22", "R32", "R124", "R125", "R134a", "R152a", "R290"];
    const blend = fluids.map((each) => ({ fluid: each, mole: 0.125 }));
    const answer = compute("air-in-system", { ...fill, fluid: undefined, blend });
    expect(answer).toMatchObject({ kind: "invalid", issues: [{ field: "blend" }] });
  });
});
