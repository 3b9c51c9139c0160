import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { terminal } from "../../test/doors/terminal.ts";
import { calculations, compute } from "../calculations/index.ts";

const number = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 1, max: 1000, noNaN: true }),
  fc.double({ min: 1e3, max: 1e8, noNaN: true }),
);
/** A usable value for most fields, so that many requests get past the reading of their input. */
const usable: Readonly<Record<string, unknown>> = {
  fluid: "R134a",
  T: "80 °F",
  ambient: "27 °C",
  p: "85 psig",
  reading: "6.1 bar(g)",
  low: "35 psig",
  high: "190 psig",
  vacuum: "28 inHg vac",
  pressure: "500 micron",
  altitude: "1500 m",
  gauge: "1.6 % of 35 bar",
  suction: "50 °F",
  liquid: "110 °F",
  volume: "3 L",
  mass: "500 g",
  air: "4 g",
  from: "top",
  vehicle: { preset: "large-orifice" },
  charge: "3 lb",
  humidity: "45 %",
};
/** Fields that mean something else in some calculations. */
const other: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  vehicle: { air: "300 mbar" },
  identify: { evidence: [{ kind: "label", declares: "R134a" }], seed: 1 },
  claim: { text: "6 oz equals 12 oz of R134a", equals: "12 oz", label: "a can" },
  "cylinder-limit": { waterCapacity: "26.2 lb", tare: "15 lb", rating: "400 psig" },
  "charge-target": { label: { refrigerant: "R134a", charge: "1.5 lb" } },
  "pump-down": {
    pump: { flow: "142 L", ultimate: "20 micron" },
    hoses: [{ bore: "6 mm", length: "1.5 m" }],
    to: "500 micron",
    from: undefined,
  },
  "vacuum-hold": {
    trace: [0, 1, 2, 3, 4, 5, 6, 8, 10, 12]
      .map((t) => `${t} min, ${400 + 2 * t} micron`)
      .join("\n"),
    gauge: undefined,
  },
  diagnose: { readings: { low: "35 psig", high: "190 psig", vent: "45 °F" } },
  plan: {
    vehicle: { preset: "midsize-expansion" },
    conditions: [{ kind: "parked-idle", ambient: "30 °C" }],
  },
  compare: {
    trial: JSON.parse(readFileSync("data/demonstration/hill-town.json", "utf8")) as unknown,
  },
  "combine-trials": {
    effects: [
      { name: "a", effect: 1.2, u: 0.5 },
      { name: "b", effect: 0.4, u: 0.6 },
    ],
  },
  sweep: { air: "300 mbar", over: "ambient", from: "20 °C", to: "40 °C", steps: 3 },
};
const words = [...Object.values(usable), "R1234yf", "R718", "R744", "-459.68 °F", "0 K"];
const value = fc.oneof(
  { weight: 6, arbitrary: number.map(String) },
  { weight: 4, arbitrary: fc.constantFrom(...words).map((text) => JSON.stringify(text)) },
  fc.constantFrom(
    "1e999",
    "-1e999",
    "NaN",
    "-0",
    "1e-400",
    "0x10",
    "null",
    "[]",
    "{}",
    "true",
    '""',
  ),
  fc.string({ unit: "binary", maxLength: 12 }).map((text) => JSON.stringify(text)),
);
const noise = fc.oneof(
  fc.string({ unit: "binary", maxLength: 40 }),
  fc.json({ maxDepth: 4 }),
  fc.constantFrom(
    "",
    " ",
    "\ufeff",
    "{",
    '{"__proto__":{"T":300}}',
    '{"fluid":"R134a","T":300,"T":1}',
  ),
  fc.integer({ min: 1, max: 3000 }).map((n) => "[".repeat(n)),
  fc.integer({ min: 1, max: 3000 }).map((n) => `{"T":${"[".repeat(n)}${"]".repeat(n)}}`),
);

/** Requests that name the calculation's own fields: usable values, some of them spoilt or missing. */
function requestFor(name: string, fields: readonly string[]) {
  const meant = { ...usable, ...other[name] };
  const known = fields.filter((field) => meant[field] !== undefined);
  const spoilt = fc.array(fc.tuple(fc.constantFrom(...fields), value), { maxLength: 3 });
  return fc
    .tuple(fc.subarray(known, { minLength: Math.ceil(known.length / 2) }), spoilt)
    .map(([kept, spoils]) => {
      const start = kept.map((field) => [field, JSON.stringify(meant[field])] as const);
      const texts = new Map([...start, ...spoils]);
      return `{${[...texts].map(([field, text]) => `${JSON.stringify(field)}:${text}`).join(",")}}`;
    });
}

/** Whether every number in an answer, however deep, is finite; JSON would hide NaN as null. */
function isFinite(answer: unknown): boolean {
  if (typeof answer === "number") return Number.isFinite(answer);
  if (typeof answer !== "object" || answer === null) return true;
  return Object.values(answer).every(isFinite);
}

const usual = Math.ceil(10_000 / calculations.length);
/** Those that take a large part of a second for an answer get fewer. */
const slow = new Set(["charge-target", "compare", "plan", "diagnose", "identify"]);

test.each(
  calculations.map(({ name, fields }) => ({
    name,
    fields: Object.keys(fields),
    each: slow.has(name) ? 16 : usual,
  })),
)(
  "$name: $each lines of any kind, one line of JSON for each, never NaN",
  async ({ name, fields, each }) => {
    const line = fc.oneof({ weight: 3, arbitrary: requestFor(name, fields) }, noise);
    const lines = fc.sample(line, { numRuns: each, seed: 20260614 });
    const input = lines.map((text) => `${text.replaceAll("\n", " ")}\n`);
    const notFinite: unknown[] = [];
    let answered = 0;
    const watched: typeof compute = (which, request) => {
      const answer = compute(which, request);
      if (answer.kind === "answer") answered++;
      if (!isFinite(answer)) notFinite.push({ request, answer });
      return answer;
    };
    const change = { input, calculations, compute: watched };
    const { code, out, err } = await terminal(["compute", name, "--lines"], change);
    expect([code, err, notFinite]).toEqual([0, "", []]);
    const answers = out.split("\n").slice(0, -1);
    expect(answers).toHaveLength(each);
    for (const text of answers) {
      const answer = JSON.parse(text) as { error?: { kind: string }; result?: unknown };
      expect("result" in answer || "error" in answer).toBe(true);
    }
    // The lines are not all noise: a good part of them reached the physics.
    expect(answered).toBeGreaterThan(each / 50);
  },
);
