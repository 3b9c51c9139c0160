import type { Measured } from "../trial/index.ts";
import type { DifferenceRow, Entry, RunValue, TrialView, Verdict } from "../trial/index.ts";
import { air, at, C, ids, m, psi, uuid } from "./shuttle-basics.fixture.ts";
import { ledger } from "./shuttle-ledger.fixture.ts";
import { hold, trace } from "./shuttle-traces.fixture.ts";

export { ids, ledger };

/** An invented trial for the tests of pictures and report: made by hand, nothing in it was measured. */

const runValue = (
  quantity: RunValue["quantity"],
  column: string,
  value: number,
  u: number,
): RunValue => ({
  quantity,
  form: "steady",
  value,
  u,
  uRepeatability: u / 3,
  uInstrument: u * 0.94,
  instrument: ids.thermometer,
  standing: "settled",
  source: {
    kind: "trace",
    trace: ids.trace,
    column,
    window: { fromSeconds: 500, toSeconds: 799, n: 300, nEff: 30 },
  },
});

const difference = (
  quantity: DifferenceRow["quantity"],
  baseline: Measured,
  other: Measured,
): DifferenceRow => ({
  quantity,
  form: "steady",
  condition: "parked-idle",
  baseline,
  other,
  difference: m(other.value - baseline.value, Math.hypot(baseline.u, other.u)),
  instrument: "shared",
  baselineRuns: [ids.parked],
  otherRuns: [ids.parkedB],
});

const entry = (n: number, type: Entry["type"], when: string, body: unknown): Entry =>
  ({
    id: uuid(n),
    type,
    at: when,
    device: "phone-1",
    when,
    body,
    original: body,
    corrections: [],
    conflict: [],
  }) as unknown as Entry;

const weighing = (before: number, after: number) => ({
  before: { value: before, unit: "g" },
  after: { value: after, unit: "g" },
  instrument: ids.scale,
});
const corrected: Entry = {
  ...entry(42, "transfer-posted", at(60, 15), {
    stage: "charge",
    round: ids.product,
    from: ids.can,
    to: "vehicle",
    sourceWeighing: weighing(318, 104),
    purged: { mass: { value: 3, unit: "g" }, limit: { value: 2, unit: "g" } },
    phase: "liquid",
  }),
  original: {
    stage: "charge",
    round: ids.product,
    from: ids.can,
    to: "vehicle",
    sourceWeighing: weighing(318, 140),
    phase: "liquid",
  },
  corrections: [
    {
      id: uuid(60),
      at: at(75, 15),
      device: "phone-1",
      reason: "The digits of the empty can were swapped: 104 g, not 140 g.",
      body: {},
      effective: true,
    },
  ],
} as unknown as Entry;

const reading = (
  n: number,
  quantity: TrialView["readings"][number]["quantity"],
  typed: { value: number; unit: string },
  value: number,
  u: number,
  when: string,
  stage: TrialView["readings"][number]["stage"] = "prove",
): TrialView["readings"][number] => ({
  id: uuid(n),
  quantity,
  form: "steady",
  typed,
  value,
  u,
  instrument: ids.gauge,
  stage,
  when,
  ...(stage === "charge" && { round: ids.product }),
});

const readings = [
  reading(50, "static-low", { value: 69, unit: "psig" }, 69 * psi + air, 8_000, at(0)),
  reading(51, "static-high", { value: 70, unit: "psig" }, 70 * psi + air, 28_000, at(1)),
  reading(52, "metal-temperature", { value: 20.1, unit: "°C" }, 20.1 + C, 0.8, at(2)),
  reading(53, "vacuum", { value: 5000, unit: "micron" }, 666.6, 33, at(140), "evacuate"),
  reading(54, "low-side", { value: 31, unit: "psig" }, 31 * psi + air, 8_000, at(90, 15), "charge"),
];

/** Stands in for the trial's own judge. */
export const judge = (quantity: string): Verdict | undefined => {
  const one = readings.find((candidate) => candidate.quantity === quantity);
  const measured = m(one?.value ?? 0, one?.u ?? 0);
  const plain = { reading: measured, details: [], sources: ["Invented for a test"] };
  switch (quantity) {
    case "static-low":
      return {
        ...plain,
        kind: "within",
        word: "as expected",
        sentence: "69 psig is what R134a shows at 20.1 °C, whatever its mass.",
        band: { from: 66 * psi + air, to: 71.5 * psi + air, expected: 68.7 * psi + air },
        basis: "saturation pressure of R134a at the metal's temperature",
      };
    case "vacuum":
      return {
        ...plain,
        kind: "higher",
        word: "too high",
        sentence:
          "Water boils at 22,400 micron at 24 °C; a hold that climbs to 5,000 leaks or is wet.",
        band: { from: 0, to: 93.3 },
        basis: "hold after evacuation, common practice, no source",
      };
    case "low-side":
      return {
        ...plain,
        kind: "undecided",
        word: "undecided",
        sentence: "No published table covers an unknown product.",
        basis: "no expectation for this product",
      };
    default:
      return undefined;
  }
};

export const shuttle: TrialView = {
  trial: uuid(0),
  opened: {
    entry: uuid(0),
    title: "Product B against R134a in a nine-seat shuttle",
    question:
      "Is product B, sold as “equals 680 g of R134a”, as cold as the label refrigerant at the vent within 1 K, parked and at 64 km/h, and what does it add as a hazard?",
    place: "a hill-town garage",
    altitude: 640,
    margin: 1,
    demonstration: true,
  },
  vehicle: {
    entry: uuid(10),
    name: "Nine-seat shuttle",
    labelRefrigerant: "R134a",
    labelCharge: 0.62,
    labelChargeTyped: { value: 0.62, unit: "kg" },
    meteringDevice: "expansion-valve",
    compressor: "variable",
    oil: "PAG 46",
    cabinVolume: 4.1,
  },
  atmosphere: { value: air, u: 300, from: "altitude", entry: uuid(0) },
  instruments: [
    {
      id: ids.gauge,
      name: "Gauge set, low side",
      measures: "pressure",
      accuracy: {
        kind: "percent-of-span",
        percent: 1.6,
        from: { value: -1, unit: "bar(g)" },
        to: { value: 10, unit: "bar(g)" },
      },
    },
    {
      id: ids.scale,
      name: "Platform scale",
      measures: "mass",
      accuracy: { kind: "limit", limit: { value: 5, unit: "g" } },
      resolution: { value: 2, unit: "g" },
    },
    {
      id: ids.thermometer,
      name: "Type K thermometer",
      measures: "temperature",
      accuracy: { kind: "limit-or-percent", limit: { value: 1.5, unit: "K" }, percent: 0.4 },
    },
    {
      id: ids.vacuumGauge,
      name: "Thermistor vacuum gauge",
      measures: "vacuum",
      accuracy: { kind: "percent-of-reading", percent: 10 },
    },
  ],
  products: [
    {
      id: ids.product,
      name: "Product B",
      declares: "no composition given",
      labelMass: 0.24,
      labelMassTyped: { value: 240, unit: "g" },
      claims: ["Equals 680 g of R134a", "Colder vent air"],
      fitting: "self-sealing, low side",
      flammableMark: true,
    },
  ],
  vessels: [
    {
      id: ids.cylinder,
      name: "Cylinder R1",
      kind: "cylinder",
      tare: 6.82,
      waterCapacity: 0.0119,
      ratedPressure: 400 * psi + air,
      holds: { substance: { kind: "fluid", fluid: "R134a" }, mass: 2.14, basis: "weighed" },
    },
  ],
  readings,
  runs: [
    {
      id: ids.parked,
      name: "Baseline, parked",
      stage: "prove",
      when: at(30),
      condition: "parked-idle",
      airSource: "recirculation",
      blower: "high",
      charged: { kind: "fluid", fluid: "R134a" },
      trace: ids.trace,
      from: "2026-06-14T09:30:00",
      to: "2026-06-14T09:43:20",
      values: [
        runValue("vent-temperature", "Vent", 7.1 + C, 0.8),
        runValue("low-side", "LP", 31 * psi + air, 8_000),
        runValue("high-side", "HP", 134 * psi + air, 28_000),
      ],
      unusable: [{ quantity: "outside-humidity", reason: "fewer than 60 s of values" }],
    },
    {
      id: ids.parkedB,
      name: "Product B, parked",
      stage: "run",
      round: ids.product,
      when: at(90, 15),
      condition: "parked-idle",
      airSource: "recirculation",
      blower: "high",
      charged: { kind: "product", product: ids.product },
      values: [runValue("vent-temperature", "Vent", 9.6 + C, 0.8)],
      unusable: [],
    },
  ],
  traces: [trace, hold],
  notes: [{ id: uuid(70), stage: "prove", when: at(3), text: "Soaked overnight with doors shut." }],
  confirmations: [],
  entries: [
    entry(0, "trial-opened", at(0), { title: "Product B against R134a", question: "…" }),
    entry(50, "reading-taken", at(0), {
      stage: "prove",
      quantity: "static-low",
      form: "steady",
      value: { value: 69, unit: "psig" },
    }),
    entry(20, "trace-imported", at(30), { stage: "prove", fileName: "shuttle-baseline.csv" }),
    corrected,
    {
      ...entry(55, "reading-taken", at(95, 15), {
        stage: "prove",
        quantity: "metal-temperature",
        form: "steady",
        value: { value: 20.1, unit: "°C" },
      }),
      withdrawn: {
        ids: [uuid(61)],
        at: at(96, 15),
        device: "phone-1",
        reason: "Read on the wrong pipe.",
      },
    },
  ],
  refused: [
    {
      id: uuid(80),
      type: "reading-taken",
      reason: "bad-body",
      issues: [{ field: "value.unit", value: "furlong", accepted: "a unit out of: psig, kPa" }],
    },
  ],
  ledger,
  stages: [
    {
      stage: "prove",
      title: "Prove the vehicle on its own refrigerant",
      endState: "The vehicle is healthy on its label refrigerant.",
      status: "done",
      requirements: [
        {
          id: "static",
          text: "Static pressure with metal temperature",
          statement: "Static pressure with metal temperature",
          met: true,
          detail: "69 psig at 20.1 °C",
          kind: "reading",
          prompts: [],
        },
      ],
      cautions: [
        {
          id: "eyes",
          severity: "caution",
          lead: "Eyes and hands.",
          text: "Wear eye protection and gloves.",
          reason: "Liquid refrigerant freezes skin and eyes at once.",
          source: "Invented for a test",
        },
      ],
      prompts: [],
    },
    {
      stage: "charge",
      round: ids.product,
      title: "Charge product B",
      endState: "A known mass of a known product is in.",
      status: "open",
      requirements: [
        {
          id: "can-after",
          text: "Weigh the empty can.",
          statement: "The can was weighed empty.",
          met: false,
          detail: "No weighing of the second can.",
          kind: "transfer",
          prompts: [],
        },
      ],
      cautions: [],
      prompts: [],
    },
  ],
  comparisons: [
    {
      product: ids.product,
      condition: "parked-idle",
      rows: [
        difference("vent-temperature", m(7.1 + C, 0.8), m(9.6 + C, 0.8)),
        difference("low-side", m(31 * psi + air, 8_000), m(24 * psi + air, 8_000)),
        difference("high-side", m(134 * psi + air, 28_000), m(121 * psi + air, 28_000)),
      ],
      conditions: [difference("outside-temperature", m(26 + C, 0.8), m(28.4 + C, 0.8))],
      unmeasured: [],
    },
  ],
  drift: [difference("vent-temperature", m(7.1 + C, 0.8), m(7.3 + C, 0.8))],
};
