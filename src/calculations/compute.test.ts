import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { calculations, compute, findCalculation, findFluid } from "./index.ts";

function answered(name: string, input: unknown) {
  const answer = compute(name, input);
  if (answer.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer as typeof answer & { result: Record<string, unknown> };
}

function issuesOf(name: string, input: unknown) {
  const answer = compute(name, input);
  if (answer.kind !== "invalid") throw new Error(JSON.stringify(answer));
  return answer.issues;
}

const demonstration: unknown = JSON.parse(
  readFileSync("data/demonstration/hill-town.json", "utf8"),
);
const examples: Readonly<Record<string, unknown>> = {
  saturation: { fluid: "r-134a", T: "25 °C", q: 0.3 },
  state: { fluid: "R290", p: "10 bar", T: 350 },
  "static-check": {
    fluid: "R134a",
    ambient: "80 °F",
    reading: "85 psig",
    altitude: 500,
    volume: "3 L",
  },
  "water-boiling": { vacuum: "29.5 inHg vac", barometer: "29.92 inHg" },
  "vacuum-check": { vacuum: "380 micron", ambient: "20 °C" },
  "operating-check": {
    fluid: "R134a",
    ambient: "32 °C",
    low: "30 psig",
    highLowest: "150 psig",
    highHighest: "220 psig",
    lowGauge: 1e4,
  },
  vessel: { blend: "R407C", volume: "12 L", mass: "5 kg", T: "25 °C" },
  withdraw: { blend: "R407C", volume: "12 L", mass: "5 kg", T: "25 °C", from: "top", steps: 5 },
  "air-in-system": {
    fluid: "R134a",
    volume: "3 L",
    mass: "500 g",
    air: "4 g",
    T: "20 °C",
    T2: "40 °C",
  },
  "phase-diagram": { fluid: "R134a" },
  claim: { text: "6 oz equals 13.7 oz of R134a", blend: "HC 50/40/10" },
  "cabin-leak": { fluid: "R290", mass: "240 g", volume: "3 m3", hole: "1 mm", systemVolume: "3 L" },
  vehicle: {
    vehicle: { preset: "large-orifice" },
    fluid: "R134a",
    charge: "3 lb",
    ambient: "90 °F",
    humidity: "45 %",
  },
  sweep: {
    vehicle: { preset: "compact-expansion" },
    fluid: "R134a",
    charge: "420 g",
    ambient: "30 °C",
    humidity: 0.5,
    over: "ambient",
    from: "25 °C",
    to: "40 °C",
    steps: 4,
  },
  identify: {
    evidence: [
      { kind: "pressure", pressure: "82 psig", temperature: "77 °F", gauge: "1 % of 500 psi" },
      { kind: "fill", mass: "12 oz", volume: "380 mL", full: true },
      { kind: "detector", detects: "halogen", responded: true },
    ],
    seed: 3,
  },
  diagnose: {
    vehicle: { preset: "midsize-expansion", labelCharge: "0.6 kg" },
    fluid: "R134a",
    charge: "0.6 kg",
    ambient: "32 °C",
    humidity: 0.45,
    readings: {
      low: "31 psig",
      high: { value: "250 psig", u: "5 psi" },
      vent: "12 °C",
      static: "125 psig",
      metal: "32 °C",
    },
    baseline: [
      {
        ambient: "28 °C",
        humidity: 0.5,
        readings: { low: "29 psig", high: "190 psig", vent: "9 °C" },
      },
    ],
  },
  cycle: { fluid: "R134a", low: "30 psig", high: "200 psig", suction: "50 °F", liquid: "110 °F" },
  flammability: { blend: "r-441a" },
  climate: {
    blend: [
      { fluid: "R134a", mass: "44 %" },
      { fluid: "R1234yf", mass: "56 %" },
    ],
    mass: "500 g",
  },
  "cylinder-limit": {
    fluid: "R134a",
    waterCapacity: "26.2 lb",
    tare: "15 lb",
    rating: "350 psig",
  },
  "combine-trials": {
    effects: [
      { name: "van", effect: 1.2, u: 0.4 },
      { name: "saloon", effect: 0.7, u: 0.3 },
    ],
  },
  residual: { fluid: "R134a", volume: "3 L", T: "21 °C", vacuum: "4 inHg vac" },
  noncondensable: { fluid: "R134a", T: "80 °F", pressure: "95 psig", altitude: "300 m" },
  "charge-target": {
    blend: "HC 50/40/10",
    label: { refrigerant: "R134a", charge: "620 g" },
    vehicle: { preset: "midsize-expansion", labelCharge: "620 g" },
    canNet: "170 g",
  },
  compare: { trial: demonstration, seed: 1 },
  plan: {
    vehicle: { preset: "midsize-expansion" },
    conditions: [{ kind: "parked-idle", ambient: "30 °C" }],
    difference: "3 K",
  },
  "evacuation-depth": { T: "70 °F", altitude: "1000 m" },
  "pump-down": {
    volume: "4 L",
    pump: { flow: "142 L", ultimate: "20 micron" },
    hoses: [{ bore: "4.8 mm", length: "1.8 m" }],
    to: "500 micron",
    T: "20 °C",
  },
  "vacuum-hold": {
    trace: "0 min, 400 micron\n5 min, 430 micron\n10 min, 445 micron\n15 min, 450 micron",
    T: "20 °C",
    volume: "3 L",
    fluid: "R134a",
  },
};

describe("every calculation", () => {
  test.each(calculations.map((calculation) => [calculation.name, calculation] as const))(
    "%s",
    (name, calculation) => {
      const answer = answered(name, examples[name]);
      expect(calculation.output.parse(answer.result)).toEqual(answer.result);
      expect(calculation.input.safeParse(examples[name]).success).toBe(true);
      expect(answer.sources.length).toBeGreaterThan(0);
      expect(answer.cautions.length).toBeGreaterThan(0);
      for (const schema of [calculation.input, calculation.output]) {
        const json = z.toJSONSchema(schema) as {
          type: string;
          properties: Record<string, { description?: string }>;
        };
        expect(json.type).toBe("object");
        expect(json).toHaveProperty("additionalProperties", false);
      }
      const input = z.toJSONSchema(calculation.input) as {
        properties: Record<string, { description?: string }>;
      };
      for (const [field, property] of Object.entries(input.properties)) {
        expect(property.description, field).toBeTruthy();
      }
      expect(findCalculation(name)).toBe(calculation);
    },
  );
});

describe("contract", () => {
  test("saturation gives the named fields by T and by p", () => {
    const byT = answered("saturation", { fluid: "R134a", T: 298.15 }).result;
    expect(Object.keys(byT).sort()).toEqual(["T", "hL", "hV", "p", "rhoL", "rhoV", "sL", "sV"]);
    const byP = answered("saturation", { fluid: "R134A", p: byT["p"] }).result;
    expect(byP["T"]).toBeCloseTo(298.15, 8);
    expect(compute("saturation", { fluid: "R134a", T: 380 })).toMatchObject({
      kind: "no-answer",
      reason: "above-critical",
    });
    expect(compute("saturation", { fluid: "R134a", T: 100 })).toMatchObject({
      kind: "no-answer",
      reason: "below-minimum",
    });
  });

  // IIR convention: saturated liquid at 0 °C has 200 kJ/kg and 1 kJ/(kg K), by definition.
  test("enthalpy and entropy in the IIR convention", () => {
    const { hL, sL } = answered("saturation", { fluid: "R134a", T: "0 °C" }).result;
    expect(hL).toBeCloseTo(200e3, 3);
    expect(sL).toBeCloseTo(1000, 6);
  });

  const pairs = [
    ["T", "p"],
    ["p", "h"],
    ["p", "s"],
    ["T", "rho"],
    ["T", "s"],
    ["p", "rho"],
  ] as const;
  const places = [
    ["liquid", { T: 280, p: 2e6 }],
    ["gas", { T: 330, p: 5e5 }],
    ["supercritical", { T: 400, p: 6e6 }],
    ["two-phase", { T: 300, q: 0.4 }],
  ] as const;
  test.each(places.flatMap(([phase, at]) => pairs.map((pair) => [phase, pair, at] as const)))(
    "%s state comes back from %s",
    (phase, [a, b], at) => {
      const state = answered("state", { fluid: "R134a", ...at }).result;
      expect(state["phase"]).toBe(phase);
      // In two phases T and p say the same thing.
      if (phase === "two-phase" && a === "T" && b === "p") return;
      const back = answered("state", { fluid: "R134a", [a]: state[a], [b]: state[b] }).result;
      for (const symbol of ["T", "p", "rho", "h", "s"]) {
        expect(Number(back[symbol]) / Number(state[symbol]), symbol).toBeCloseTo(1, 7);
      }
    },
  );

  test("state refuses pairs that fix no single state, naming those that do", () => {
    expect(issuesOf("state", { fluid: "R290", T: 300, h: 5e5 })[0]).toMatchObject({
      field: "h",
      value: "(T, h)",
    });
    expect(issuesOf("state", { fluid: "R290", T: 300 })[0]?.accepted).toContain("exactly two of");
    expect(issuesOf("state", { fluid: "R290", T: 300, p: 1e5, q: 1 })[0]?.value).toBe("T, p, q");
  });

  test("gauge readings: altitude, barometer, or the assumption said aloud", () => {
    const at = (place: object) =>
      answered("static-check", { fluid: "R134a", ambient: "25 °C", reading: "80 psig", ...place });
    expect(at({}).assumptions?.join(" ")).toContain("101325 Pa (sea level)");
    expect(at({ altitude: "5000 ft" }).assumptions?.join(" ")).toContain(
      "standard atmosphere of this altitude",
    );
    expect(at({ barometer: "29.4 inHg" }).assumptions?.join(" ")).not.toContain("Local air");
    expect(at({ barometer: "1015 hPa", altitude: 1500 }).assumptions?.join(" ")).toContain(
      "sea-level figure",
    );
    expect(Number(at({ altitude: 1500 }).result["reading"])).toBeCloseTo(84556 + 80 * 6894.757, -1);
    expect(answered("saturation", { fluid: "R134a", T: 300 }).assumptions).toBeUndefined();
  });

  test("static-check", () => {
    const input = {
      fluid: "R134a",
      ambient: "25 °C",
      reading: "81.8 psig",
      volume: "3 L",
      barometer: 101325,
    };
    const gauges = ["2.4 psi", "1.6 % of 10 bar", "3-2-3 of 120 psi", "2 % of reading", 15000];
    for (const gauge of gauges) {
      const { result, uncertainty } = answered("static-check", {
        ...input,
        gauge,
        thermometer: "1 K",
      });
      expect(result["verdict"], String(gauge)).toBe("within");
      expect(uncertainty?.["difference"]).toBeGreaterThan(0);
      expect(result["leastMass"]).toBeCloseTo(0.097, 3);
    }
    expect(answered("static-check", { ...input, reading: "110 psig" }).result["verdict"]).toBe(
      "higher",
    );
    expect(compute("static-check", { ...input, fluid: "R744", ambient: "35 °C" })).toMatchObject({
      kind: "no-answer",
      reason: "above-critical",
    });
    expect(issuesOf("static-check", { ...input, gauge: "3-2-4 of 120 psi" })[0]?.field).toBe(
      "gauge",
    );
  });

  test("water-boiling and vacuum-check", () => {
    expect(answered("water-boiling", { pressure: 101325 }).result["T"]).toBeCloseTo(373.124, 2);
    expect(answered("water-boiling", { vacuum: 101325 - 2339 }).result["T"]).toBeCloseTo(293.15, 1);
    expect(answered("water-boiling", { pressure: "500 micron" }).result["from"]).toBe("ice");
    expect(compute("water-boiling", { vacuum: "29.9 inHg vac", altitude: 1500 })).toMatchObject({
      kind: "no-answer",
    });
    expect(issuesOf("water-boiling", { vacuum: "29.5 inHg" })[0]?.accepted).toContain(
      "inHg vac or inHg abs",
    );
    expect(issuesOf("water-boiling", {})[0]?.field).toBe("vacuum");
    const verdict = (input: object) =>
      answered("vacuum-check", { ambient: "20 °C", ...input }).result["verdict"];
    expect(verdict({ vacuum: "380 micron" })).toBe("water-boils");
    expect(verdict({ vacuum: "29.9 inHg vac" })).toBe("gauge-cannot-tell");
    expect(verdict({ vacuum: "20 inHg vac" })).toBe("not-deep-enough");
    expect(verdict({ vacuum: "29.9 inHg vac", altitude: 1500 })).toBe("deeper-than-possible");
  });

  test("operating-check", () => {
    const input = { fluid: "R134a", ambient: "30 °C" };
    const { result } = answered("operating-check", {
      ...input,
      lowLowest: "23 psig",
      lowHighest: "45 psig",
      high: "210 psig",
      vent: "9 °C",
      returnAir: "25 °C",
      returnHumidity: "55 %",
    });
    expect(result["readings"]).toMatchObject([
      { reading: "low", verdict: "undecided", reason: "cycling-clutch" },
      { reading: "high", verdict: "within" },
      { reading: "vent", verdict: "within" },
    ]);
    expect(result["switchSettings"]).toHaveLength(2);
    expect(issuesOf("operating-check", { ...input, vent: "9 °C" })[0]?.field).toBe("returnAir");
    expect(
      issuesOf("operating-check", { ...input, low: "30 psig", lowLowest: "20 psig" })[0]?.field,
    ).toBe("low");
    expect(issuesOf("operating-check", input)[0]?.field).toBe("low");
  });
});

describe("bad input names field, value and what is accepted", () => {
  test.each([
    [{ fluid: "R999", T: 300 }, "fluid", "R999", "R134a"],
    [{ fluid: "R134a", T: NaN }, "T", "NaN", "K"],
    [{ fluid: "R134a", T: Infinity }, "T", "Infinity", "K"],
    [{ fluid: "R134a", T: "300" }, "T", "300", "a unit out of"],
    [{ fluid: "R134a", T: -5 }, "T", -5, "1 to 5000 K"],
    [{ fluid: "R134a", T: [300] }, "T", "a list", "Temperature"],
    [{ fluid: "R134a", p: "85 psi" }, "p", "85 psi", "psig or psia"],
    [{ T: 300 }, "fluid", "neither fluid nor blend", "either fluid or blend"],
    [{ fluid: "R134a", T: 300, colour: 1 }, "colour", "this field", "only the fields"],
    [
      JSON.parse('{"fluid":"R134a","T":300,"__proto__":{"a":1}}'),
      "__proto__",
      "this field",
      "only the fields",
    ],
    [{ fluid: "constructor", T: 300 }, "fluid", "constructor", "R134a"],
    [{ fluid: "R134a", T: 300, p: 1e5 }, "T", "both T and p", "either T or p"],
    [{ fluid: "R134a", p: "1 bar", barometer: "14.7 psig" }, "barometer", "14.7 psig", "absolute"],
    [{ fluid: "R134a", p: "1 bar", barometer: 5 }, "barometer", 5, "45000 to 115000"],
    [{ fluid: "R134a", T: "x".repeat(1e5) }, "T", "x".repeat(80) + "…", "Temperature"],
    [null, "input", null, "an object"],
    ["text", "input", "text", "an object"],
    [[1], "input", "a list", "an object"],
  ])("%#", (input: unknown, field, value, accepted) => {
    const [first] = issuesOf("saturation", input);
    expect(first).toMatchObject({ field, value });
    expect(first?.accepted).toContain(accepted);
  });

  test("an unknown calculation", () => {
    expect(issuesOf("toString", {})[0]).toMatchObject({ field: "name", value: "toString" });
  });

  test("names of fluids", () => {
    expect(findFluid("r-134A")).toBe("R134a");
    expect(findFluid("R1234zeE")).toBe("R1234ze(E)");
    expect(findFluid("r 1234ze(e)")).toBe("R1234ze(E)");
    expect(findFluid("")).toBeUndefined();
    expect(findFluid("__proto__")).toBeUndefined();
  });
});
