import fc from "fast-check";
import { expect, test } from "vitest";
import { fluidIds } from "../fluids/index.ts";
import { ratedBlends } from "../service/index.ts";
import { dimensions, unitsOf } from "../units/index.ts";
import {
  ofCharging,
  ofClaims,
  ofDiagnoses,
  ofEvacuation,
  ofPlans,
  ofRecovery,
  ofTrials,
} from "../../test/fuzz/shop-inputs.ts";
import { ofContents } from "../../test/fuzz/contents-inputs.ts";
import { calculations, compute } from "./index.ts";

const seed = 8072;

/** Every number anywhere in a value, with where it stands. */
function numbersIn(value: unknown, path: string): { path: string; number: number }[] {
  if (typeof value === "number") return [{ path, number: value }];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${path}.${key}`));
}

function sound(name: string, input: unknown): string {
  const answer = compute(name, input);
  for (const { path, number } of numbersIn(answer, "answer")) {
    if (!Number.isFinite(number)) throw new Error(`${name} ${path} is ${number}`);
  }
  if (answer.kind === "invalid") {
    expect(answer.issues.length).toBeGreaterThan(0);
    for (const { field, accepted } of answer.issues)
      expect(field !== "" || accepted !== "").toBe(true);
  } else if (answer.kind === "answer") {
    const calculation = calculations.find((known) => known.name === name);
    expect(calculation?.output.safeParse(answer.result).success).toBe(true);
  } else expect(answer.message.length).toBeGreaterThan(10);
  // What goes over a wire comes back as it was.
  const sent = JSON.stringify(answer);
  expect(JSON.stringify(JSON.parse(sent))).toBe(sent);
  return answer.kind;
}

const units = dimensions.flatMap((dimension) => unitsOf(dimension).map(({ label }) => label));
const nearlyNumbers = fc.constantFrom(
  0,
  -0,
  1,
  -1,
  NaN,
  Infinity,
  -Infinity,
  1e308,
  5e-324,
  273.15,
  1e5,
  1e6,
);
const anyNumber = fc.oneof(
  nearlyNumbers,
  fc.double(),
  fc.double({ min: 0, max: 1e3, noNaN: true }),
  fc.double({ min: 0, max: 1e7, noNaN: true }),
);
const anyMeasure = fc.tuple(
  fc.double({ min: -100, max: 1000, noNaN: true }),
  fc.constantFrom(...units),
);
const anyText = fc.oneof(
  anyMeasure.map(([value, unit]) => `${value.toFixed(2)} ${unit}`),
  fc.constantFrom(
    ...fluidIds,
    "",
    "85 psi",
    "3-2-3 of 120 psi",
    "1.6 % of 35 bar",
    "5 lb 3 oz",
    "1,234 psig",
    "__proto__",
    "\u0000",
  ),
  fc.string(),
);
const anyValue = fc.oneof(
  anyNumber,
  anyText,
  fc.jsonValue(),
  fc.constantFrom(undefined, null, true, [], {}),
);
const names = calculations.map(({ name }) => name);

/** Fields of the calculation with any values, sometimes a stranger among them. */
const wild = fc.constantFrom(...calculations).chain(({ name, fields }) => {
  const keys = fc.oneof(
    { weight: 9, arbitrary: fc.constantFrom(...Object.keys(fields)) },
    { weight: 1, arbitrary: fc.string() },
  );
  return fc.record({
    name: fc.constant(name),
    input: fc.dictionary(keys, anyValue, { maxKeys: 6 }),
  });
});

const anyFluid = fc.constantFrom(...fluidIds);
const span = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const log = (min: number, max: number) => span(Math.log(min), Math.log(max)).map(Math.exp);
const symbols = {
  T: span(1, 1500),
  p: log(1e-6, 1e9),
  h: span(-1e6, 5e6),
  s: span(-5e3, 2e4),
  rho: log(1e-10, 5000),
  q: span(0, 1),
};
const celsius = span(-60, 120).map((t) => `${t.toFixed(2)} °C`);
const psig = span(-14, 600).map((p) => `${p.toFixed(1)} psig`);
const byFractions = fc
  .tuple(
    fc.uniqueArray(anyFluid, { minLength: 2, maxLength: 8 }),
    fc.array(log(1e-4, 1), { minLength: 8, maxLength: 8 }),
    fc.constantFrom("mass" as const, "mole" as const),
  )
  .map(([fluids, shares, basis]) => {
    const used = shares.slice(0, fluids.length);
    const sum = used.reduce((total, share) => total + share, 0);
    return fluids.map((fluid, i) => ({ fluid, [basis]: (used[i] ?? 0) / sum }));
  });
const anyBlend = fc.oneof(byFractions, fc.constantFrom(...ratedBlends.map(({ blend }) => blend)));
const anySubstance = fc.oneof(
  anyFluid.map((fluid) => ({ fluid })),
  anyBlend.map((blend) => ({ blend })),
);
const filled = {
  volume: log(1e-4, 1),
  mass: log(1e-4, 100),
  T: span(180, 420),
};
/** Blends are slower by a thousand times, so there are fewer of them. */
const ofBlends = fc.oneof(
  fc
    .tuple(anySubstance, span(200, 380), log(1e3, 1e8), fc.constantFrom("T", "p"))
    .map(([substance, T, p, by]) => ({
      name: "saturation",
      input: { ...substance, ...(by === "T" ? { T } : { p }) },
    })),
  fc
    .tuple(
      anySubstance,
      fc.constantFrom(
        ["T", "p"] as const,
        ["p", "h"] as const,
        ["p", "s"] as const,
        ["T", "rho"] as const,
        ["T", "q"] as const,
        ["p", "q"] as const,
        ["T", "s"] as const,
      ),
      fc.record({ ...symbols, T: span(180, 420), p: log(1e3, 1e8) }),
    )
    .map(([substance, pair, values]) => ({
      name: "state",
      input: {
        ...substance,
        ...Object.fromEntries(pair.map((symbol) => [symbol, values[symbol]])),
      },
    })),
  fc
    .tuple(anySubstance, fc.record(filled))
    .map(([substance, fill]) => ({ name: "vessel", input: { ...substance, ...fill } })),
  fc
    .tuple(anySubstance, fc.record(filled), log(1e-6, 1), span(200, 400))
    .map(([substance, fill, air, T2]) => ({
      name: "air-in-system",
      input: { ...substance, ...fill, air, T2 },
    })),
  fc
    .tuple(anySubstance, log(1e4, 1e7), log(1e4, 1e7), span(200, 400), span(200, 400))
    .map(([substance, low, high, suction, liquid]) => ({
      name: "cycle",
      input: { ...substance, low, high, suction, liquid },
    })),
  fc.tuple(anySubstance).map(([substance]) => ({ name: "flammability", input: substance })),
  fc
    .tuple(anySubstance, filled.mass)
    .map(([substance, mass]) => ({ name: "climate", input: { ...substance, mass } })),
);
const ofDiagrams = fc.oneof(
  fc.tuple(anySubstance).map(([substance]) => ({
    name: "phase-diagram",
    input: { ...substance, kind: "pressure-temperature" },
  })),
  fc.tuple(anyFluid).map(([fluid]) => ({ name: "phase-diagram", input: { fluid } })),
);
const ofWithdrawals = fc
  .tuple(anySubstance, fc.record(filled), fc.constantFrom("top", "bottom"))
  .map(([substance, fill, from]) => ({
    name: "withdraw",
    input: { ...substance, ...fill, from, steps: 2 },
  }));

const ofLeaks = fc
  .tuple(
    anySubstance,
    fc.record({ mass: log(1e-5, 10), volume: log(0.01, 50) }),
    fc.record(
      {
        airChanges: log(1e-3, 1e3),
        blower: fc.constantFrom("on", "off"),
        layerExchange: log(1e-3, 1e3),
        systemVolume: log(1e-4, 0.05),
        airT: celsius,
        altitude: span(-500, 4000),
      },
      { requiredKeys: [] },
    ),
    fc.oneof(
      fc.constant({}),
      fc.record({ duration: log(1, 1e6) }),
      fc.record({
        hole: log(1e-5, 0.02),
        T: celsius,
        phase: fc.constantFrom("liquid", "vapour"),
        discharge: fc.constantFrom("bernoulli", "flashing"),
      }),
    ),
  )
  .map((parts) => ({
    name: "cabin-leak",
    input: Object.assign({}, ...parts) as Readonly<Record<string, unknown>>,
  }));

const vehicleInput = fc.record({
  vehicle: fc.record({
    preset: fc.constantFrom("large-orifice", "midsize-expansion", "compact-expansion"),
    displacement: span(5e-5, 5e-4),
  }),
  fluid: anyFluid,
  charge: log(1e-3, 5),
  ambient: celsius,
  humidity: span(0, 1),
  speed: span(0, 60),
  engineSpeed: span(5, 120),
  blower: span(0.2, 1),
});
/** Inputs that mean something, over the whole range of the fields and beyond the equations. */
const meant = fc.oneof(
  fc
    .tuple(
      anyFluid,
      fc.uniqueArray(fc.constantFrom(...(Object.keys(symbols) as (keyof typeof symbols)[])), {
        minLength: 2,
        maxLength: 2,
      }),
      fc.record(symbols),
    )
    .map(([fluid, pair, values]) => ({
      name: "state",
      input: { fluid, ...Object.fromEntries(pair.map((symbol) => [symbol, values[symbol]])) },
    })),
  fc
    .tuple(anyFluid, symbols.T, symbols.q)
    .map(([fluid, T, q]) => ({ name: "saturation", input: { fluid, T, q } })),
  fc
    .tuple(anyFluid, symbols.p, symbols.q)
    .map(([fluid, p, q]) => ({ name: "saturation", input: { fluid, p, q } })),
  fc
    .tuple(anyFluid, celsius, psig, span(-500, 4000))
    .map(([fluid, ambient, reading, altitude]) => ({
      name: "static-check",
      input: { fluid, ambient, reading, altitude, volume: "3 L" },
    })),
  fc.tuple(celsius, span(0, 31), span(-500, 4000)).map(([ambient, depth, altitude]) => ({
    name: "vacuum-check",
    input: { ambient, vacuum: `${depth.toFixed(3)} inHg vac`, altitude },
  })),
  vehicleInput.map((input) => ({ name: "vehicle", input })),
  fc.tuple(vehicleInput, celsius).map(([input, from]) => ({
    name: "sweep",
    input: { ...input, over: "ambient", from, to: "45 °C", steps: 3 },
  })),
  fc.tuple(log(1e-4, 1e7)).map(([pressure]) => ({ name: "water-boiling", input: { pressure } })),
  fc
    .tuple(celsius, psig, psig, celsius, celsius, span(0, 1))
    .map(([ambient, low, high, vent, returnAir, returnHumidity]) => ({
      name: "operating-check",
      input: { fluid: "R134a", ambient, low, high, vent, returnAir, returnHumidity },
    })),
);

test("5000 wild inputs: no throw, no NaN, a named field", () => {
  fc.assert(
    fc.property(wild, ({ name, input }) => void sound(name, input)),
    { seed, numRuns: 5000 },
  );
});

test("5000 inputs that mean something: the same, and many are answered", () => {
  const kinds = new Map<string, number>();
  fc.assert(
    fc.property(meant, ({ name, input }) => {
      const kind = sound(name, input);
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    }),
    { seed, numRuns: 5000 },
  );
  expect(kinds.get("answer")).toBeGreaterThan(2000);
});

test.each([
  ["blends", ofBlends, 1000],
  ["diagrams", ofDiagrams, 40],
  ["withdrawals", ofWithdrawals, 40],
  ["leaks", ofLeaks, 200],
  ["evacuations", ofEvacuation, 150],
  ["recoveries", ofRecovery, 300],
  ["charges", ofCharging, 60],
  ["claims", ofClaims, 400],
  ["contents", ofContents, 5],
  ["diagnoses", ofDiagnoses, 8],
  ["plans", ofPlans, 6],
  ["trials", ofTrials, 6],
] as const)("%s: no throw, no NaN", (_, questions, numRuns) => {
  const kinds = new Map<string, number>();
  fc.assert(
    fc.property(questions, ({ name, input }) => {
      const kind = sound(name, input);
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    }),
    { seed, numRuns },
  );
  expect(kinds.get("answer")).toBeGreaterThan(numRuns / 4);
});

test("anything at all as name and input", () => {
  const anything = fc.anything({
    withBigInt: true,
    withDate: true,
    withMap: true,
    withNullPrototype: true,
  });
  fc.assert(
    fc.property(
      fc.oneof(fc.constantFrom(...names), fc.string()),
      anything,
      (name, input) => void sound(name, input),
    ),
    { seed, numRuns: 2000 },
  );
});
