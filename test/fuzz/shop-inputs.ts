// Inputs that mean something for the calculations of a shop's day, over the whole range of their fields and beyond.
import { readFileSync } from "node:fs";
import fc from "fast-check";
import {
  span,
  log,
  text,
  celsius,
  shopAir,
  psig,
  micron,
  gauge,
  thermometer,
  substance,
  fluid,
  optional,
  joined,
  vehicle,
  conditions,
  readings,
  ran,
} from "./shop-words.ts";

/** Rows of a hold that rises and then bends or not, with noise: some in order, some hopeless. */
const trace = fc
  .record({
    start: log(1, 5e3),
    rise: log(1e-4, 1e3),
    bend: log(1, 1e5),
    noise: fc.array(span(-0.2, 0.2), { minLength: 3, maxLength: 40 }),
    step: log(0.01, 1e4),
  })
  .map(({ start, rise, bend, noise, step }) =>
    noise.map((by, k) => ({
      t: k * step,
      p: (start + rise * bend * (1 - Math.exp((-k * step) / bend))) * (1 + by),
    })),
  );
const hose = fc.record({ bore: log(4e-4, 0.2), length: log(5e-3, 40) });

/** The fast ones. */
export const ofEvacuation = fc.oneof(
  joined(
    "vacuum-hold",
    fc.record({ trace, T: celsius, volume: log(1e-5, 1) }),
    optional<unknown>({ volumeUncertainty: span(0, 1), fluid, gauge, resolution: micron }),
  ),
  joined(
    "pump-down",
    fc.record({
      volume: log(1e-5, 1),
      pump: fc.record({ flow: log(1e-4, 10), ultimate: micron }),
      hoses: fc.array(hose, { maxLength: 7 }),
      to: micron,
      T: celsius,
    }),
    optional<unknown>({ from: psig, water: span(0, 0.11) }),
  ),
  joined("evacuation-depth", fc.record({ T: celsius, altitude: span(-500, 4000) })),
);

export const ofRecovery = fc.oneof(
  joined(
    "cylinder-limit",
    substance,
    fc.record({
      waterCapacity: fc.oneof(log(1e-5, 100), text(log(0.01, 1e4), "lb")),
      tare: log(1e-3, 1e5),
    }),
    optional<unknown>({ rating: psig, fillTemperature: celsius }),
  ),
  joined(
    "residual",
    substance,
    fc.record({ volume: log(1e-4, 1), T: celsius }),
    fc.oneof(
      fc.record({ vacuum: text(span(0, 31), "inHg vac") }),
      fc.record({ pressure: psig }),
      optional({ vacuum: micron, pressure: psig }),
    ),
    optional<unknown>({ volumeLimit: span(0, 1), gauge, altitude: span(-500, 4000) }),
  ),
  joined(
    "noncondensable",
    substance,
    fc.record({ T: celsius, pressure: psig }),
    optional({ gauge }),
  ),
);

export const ofCharging = joined(
  "charge-target",
  substance,
  fc.record({
    label: fc.record({
      refrigerant: fc.constantFrom("R134a", "R12", "R1234yf", "R744", "no such fluid"),
      charge: log(1e-3, 20),
    }),
  }),
  optional<unknown>({
    volume: log(1e-4, 0.1),
    ambient: celsius,
    condensing: celsius,
    humidity: span(0, 1),
    canNet: log(1e-3, 20),
    canVolume: log(1e-5, 0.1),
    hoseBore: log(1e-3, 0.05),
    hoseLength: log(0.01, 20),
    claimed: log(1e-3, 20),
  }),
);

const effect = fc
  .record({
    quantity: fc.constantFrom("vent-temperature", "low-side", "high-side"),
    condition: fc.constantFrom("parked-idle", "road-steady"),
    basis: fc.constantFrom("equal-conditions", "as-measured"),
    effect: span(-1e6, 1e6),
    u: log(1e-6, 1e6),
    byEnds: fc.boolean(),
  })
  .map(({ u, byEnds, ...rest }) => ({
    ...rest,
    ...(byEnds ? { lower: rest.effect - u, upper: rest.effect + u } : { u }),
  }));

export const ofClaims = joined(
  "claim",
  fc.oneof(fc.constant({}), substance),
  optional<unknown>({
    text: fc.constantFrom(
      "6 oz equals 13.7 oz of R134a",
      "Zero GWP",
      "GWP below 5",
      "Non-flammable",
      "A drop-in",
      "Colder air",
      "Lower head pressure",
      "Contains 170 g",
      "Approved",
      "0 oz equals 1e9 oz of R134a",
    ),
    kind: fc.constantFrom("equals-mass", "net-mass", "gwp", "colder-air", "other"),
    mass: log(1e-6, 1e3),
    equals: log(1e-6, 1e3),
    of: fc.constantFrom("R134a", "r-12", "air", "ice"),
    limit: span(0, 1e5),
    reference: fc.constantFrom("R134a", "R1234yf", "none"),
    flammableMark: fc.boolean(),
    declaredOnly: fc.boolean(),
    trial: fc.array(effect, { maxLength: 4 }),
  }),
);

export const ofDiagnoses = joined(
  "diagnose",
  fc.record({
    vehicle,
    fluid: fc.constantFrom("R134a", "R1234yf", "R152a", "R12", "R290"),
    charge: log(0.05, 3),
  }),
  fc.oneof(
    fc.tuple(conditions, readings).map(([air, own]) => ({ ...air, readings: own })),
    ran(1).map((all) => ({ runs: all })),
  ),
  optional({ baseline: ran(0) }),
);

export const ofPlans = joined(
  "plan",
  fc.record({
    vehicle,
    conditions: fc.uniqueArray(
      fc.record({
        kind: fc.constantFrom("parked-idle", "parked-raised-idle", "road-steady", "road-mixed"),
        ambient: shopAir,
        humidity: span(0, 1),
      }),
      { minLength: 1, maxLength: 2, selector: ({ kind }) => kind },
    ),
  }),
  optional<unknown>({
    label: fluid,
    products: fc.integer({ min: 1, max: 8 }),
    difference: span(0.05, 20),
    apart: span(0, 10),
    ventInstrument: thermometer,
    lowInstrument: gauge,
    highInstrument: gauge,
    returnAirRead: fc.constantFrom(0, 1),
  }),
);

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
const demonstration = JSON.parse(readFileSync("data/demonstration/hill-town.json", "utf8")) as Json;

/** Every measured value times a factor of its own; units and structure stay. */
function misread(value: Json, factors: () => number): Json {
  if (Array.isArray(value)) return value.map((one: Json) => misread(one, factors));
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).map(([key, one]): [string, Json] => [
    key,
    key === "value" && typeof one === "number" ? one * factors() : misread(one, factors),
  ]);
  return Object.fromEntries(entries);
}

/** The demonstration's trial, misread a little, much, or beyond all sense. */
export const ofTrials = fc
  .tuple(
    fc.constantFrom(0.02, 0.2, 3),
    fc.infiniteStream(span(-1, 1)),
    fc.integer({ min: 0, max: 2 ** 31 - 1 }),
  )
  .map(([width, stream, seed]) => ({
    name: "compare",
    input: {
      trial: misread(demonstration, () => Math.exp(width * (stream.next().value ?? 0))),
      seed,
    },
  }));
