import { z } from "zod";
import { type Accuracy, instrumentUncertainty } from "../service/index.ts";
import { MOST_REPEATS, type PlannedCondition, planRuns } from "../evidence/index.ts";
import { type Conditions, pureComposition } from "../vehicle/index.ts";
import { accuracy } from "./accuracy-field.ts";
import { issue, type Issue } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { COMPARISON_SOURCES } from "./compare.ts";
import { defineCalculation } from "./definition.ts";
import { count, type Field, fraction, optional, quantity } from "./field.ts";
import { fluidField } from "./fluid-field.ts";
import { MODEL_SOURCES } from "./vehicle.ts";
import { vehicleField } from "./vehicle-field.ts";

const kinds = ["parked-idle", "parked-raised-idle", "road-steady", "road-mixed"] as const;
type Kind = (typeof kinds)[number];
const amount = z.union([z.number(), z.string().max(80)]);

interface ConditionValue {
  readonly kind: Kind;
  readonly ambient: number;
  readonly humidity: number;
}
const usual = { ambient: 303.15, humidity: 0.5 };
const AMBIENT = quantity("temperature", "Outside air", { from: 283.15, to: 321.15 });
const HUMIDITY = fraction("Relative humidity");
const MOST_CONDITIONS = 4;

const conditionsField: Field<readonly ConditionValue[]> = {
  schema: z
    .array(
      z.strictObject({
        kind: z.enum(kinds),
        ambient: amount.optional(),
        humidity: amount.optional(),
      }),
    )
    .describe(
      `Conditions in which each charge is run, 1 to ${MOST_CONDITIONS}: {kind: ${kinds.join(" | ")}, ambient (10 to 48 °C; 30 °C), humidity (0.5)}`,
    ),
  required: true,
  read(raw, name, air) {
    const list = raw as { kind: Kind; ambient?: unknown; humidity?: unknown }[];
    if (list.length < 1 || list.length > MOST_CONDITIONS) {
      const accepted = `1 to ${MOST_CONDITIONS} conditions`;
      return { kind: "unusable", issues: [issue(name, `${list.length}`, accepted)] };
    }
    const issues: Issue[] = [];
    const part = (field: Field<number>, value: unknown, path: string, otherwise: number) => {
      if (value === undefined) return otherwise;
      const outcome = field.read(value, path, air);
      if (outcome.kind === "value") return outcome.value;
      issues.push(...outcome.issues);
      return otherwise;
    };
    const value = list.map(({ kind, ambient, humidity }, i) => ({
      kind,
      ambient: part(AMBIENT, ambient, `${name}.${i}.ambient`, usual.ambient),
      humidity: part(HUMIDITY, humidity, `${name}.${i}.humidity`, usual.humidity),
    }));
    const twice = new Set(list.map(({ kind }) => kind)).size < list.length;
    if (twice) issues.push(issue(name, "one kind twice", "each kind once"));
    return issues.length > 0 ? { kind: "unusable", issues } : { kind: "value", value };
  },
};

const output = z.strictObject({
  runs: z
    .int()
    .nullable()
    .describe(
      "Runs of each charge in each condition that find the difference; null: no number does",
    ),
  smallestDetectable: z
    .array(z.number())
    .describe(`Of the vent, worst condition, K: with 1, 2 … ${MOST_REPEATS} runs each`),
  floor: z.number().describe("What more runs do not go below, K"),
  rows: z.array(
    z.strictObject({
      condition: z.enum(kinds),
      quantity: z.enum(["vent", "low", "high"]),
      smallestDetectable: z.array(z.number()),
      floor: z.number(),
    }),
  ),
});

/** Engine, speed and cabin of each kind (common practice, no source). */
const setting: Readonly<Record<Kind, { speed: number; engineSpeed: number; share: number }>> = {
  "parked-idle": { speed: 0, engineSpeed: 750 / 60, share: 0.45 },
  "parked-raised-idle": { speed: 0, engineSpeed: 1500 / 60, share: 0.45 },
  "road-steady": { speed: 64 / 3.6, engineSpeed: 1700 / 60, share: 0.9 },
  "road-mixed": { speed: 40 / 3.6, engineSpeed: 1600 / 60, share: 0.8 },
};

function plannedCondition(
  { kind, ambient, humidity }: ConditionValue,
  pAir: number,
): PlannedCondition {
  const { speed, engineSpeed, share } = setting[kind];
  const conditions: Conditions = {
    ambient,
    humidity,
    pAir,
    speed,
    engineSpeed,
    blower: 1,
    recirculation: 1,
    returnAir: { kind: "pull-down", share },
    occupants: 1,
  };
  return { kind, conditions };
}

/** Where the readings of a run usually stand, on the gauges' own scales (Pa, °C). */
const usualReading = { vent: 8, low: 200e3, high: 1.3e6 };
/** What a settled tail scatters by (common practice, no source). */
const settling = { vent: 0.1, low: 2e3, high: 5e3 };
const usualClass: Readonly<Record<"vent" | "low" | "high", Accuracy>> = {
  vent: { kind: "limit", limit: 0.5 },
  low: { kind: "percent-of-span", percent: 1.6, from: 0, to: 10e5 },
  high: { kind: "percent-of-span", percent: 1.6, from: 0, to: 35e5 },
};

/** Standard uncertainties of conditions that are read, and of the cabin's pull-down that is guessed (judged). */
const plannedU = {
  ambient: 0.5,
  humidity: 0.04,
  speed: 0.5,
  engineSpeed: 0.5,
  returnT: 0.5,
  returnHumidity: 0.04,
  pullDown: 0.12,
};

export const planCalculation = defineCalculation({
  name: "plan",
  title: "How many runs find a difference, and the smallest difference that a plan finds",
  fields: {
    vehicle: vehicleField,
    label: optional(fluidField),
    products: optional(count("Products that are compared; 1", { from: 1, to: 8 })),
    conditions: conditionsField,
    difference: optional(
      quantity("temperature-difference", "Difference of the vent that matters; 1 K", {
        from: 0.05,
        to: 20,
      }),
    ),
    apart: optional(
      quantity(
        "temperature-difference",
        "How far the days of the product are from those of the baseline; 4 K",
        { from: 0, to: 10 },
      ),
    ),
    ventInstrument: optional(accuracy("temperature-difference", "Vent thermometer")),
    lowInstrument: optional(accuracy("pressure-difference", "Low-side gauge")),
    highInstrument: optional(accuracy("pressure-difference", "High-side gauge")),
    returnAirRead: optional(
      fraction(
        "1 if the temperature and humidity of the return air are read in every run, else 0; 1",
      ),
    ),
  },
  output,
  cautions: [cautions.running, cautions.rules],
  sources: [...COMPARISON_SOURCES, ...MODEL_SOURCES],
  run(values, air) {
    const difference = values.difference ?? 1;
    const instrument = (what: "vent" | "low" | "high", given: Accuracy | undefined) => ({
      uInstrument: instrumentUncertainty(given ?? usualClass[what], usualReading[what]).u,
      uRepeatability: settling[what],
    });
    const isRead = (values.returnAirRead ?? 1) >= 0.5;
    const found = planRuns({
      vehicle: values.vehicle.vehicle,
      known: values.vehicle.given,
      label: pureComposition(values.label ?? "R134a"),
      products: values.products ?? 1,
      conditions: values.conditions.map((each) => plannedCondition(each, air.p)),
      apart: values.apart ?? 4,
      instruments: {
        vent: instrument("vent", values.ventInstrument),
        low: instrument("low", values.lowInstrument),
        high: instrument("high", values.highInstrument),
      },
      u: plannedU,
      returnAirRead: isRead,
    });
    if (found.kind === "none") {
      return {
        kind: "no-answer",
        reason: "no-solution",
        message: "The model finds no steady running of this vehicle in these conditions.",
        numbers: {},
      };
    }
    const vents = found.rows.filter(({ quantity: what }) => what === "vent");
    const smallest = Array.from({ length: MOST_REPEATS }, (_, k) =>
      Math.max(...vents.map(({ smallestDetectable }) => smallestDetectable[k] ?? 0)),
    );
    const enough = smallest.findIndex((each) => each <= difference);
    return {
      kind: "answer",
      result: {
        runs: enough < 0 ? null : enough + 1,
        smallestDetectable: smallest,
        floor: Math.max(...vents.map(({ floor }) => floor)),
        rows: found.rows.flatMap(({ kind, quantity: what, smallestDetectable, floor }) => {
          const known = kinds.find((each) => each === kind);
          return known === undefined
            ? []
            : [
                {
                  condition: known,
                  quantity: what,
                  smallestDetectable: [...smallestDetectable],
                  floor,
                },
              ];
        }),
      },
      assumptions: [
        "The label refrigerant is run before and after the products (A–B–A) as often as each product.",
        "A difference counts as found when it is in four of five such trials, at 95 %.",
        isRead
          ? "The temperature and humidity of the return air are read in every run."
          : "The return air is not read: its state comes from a model of the cabin, which costs more than any number of runs.",
      ],
    };
  },
});
