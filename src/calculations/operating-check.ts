import { z } from "zod";
import {
  type Accuracy,
  cyclingSwitchPosition,
  instrumentUncertainty,
  limitOfError,
  type LocalAir,
  operatingCaution,
  operatingConditions,
  operatingPressure,
  rectangular,
  type SwitchComparison,
  type TableVerdict,
  ventTemperature,
} from "../service/index.ts";
import { unitSize } from "../units/index.ts";
import { accuracy } from "./accuracy-field.ts";
import { invalidInput, issue, type Issue } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import {
  fraction,
  optional,
  pressure,
  type PressureValue,
  quantity,
  type ValuesOf,
} from "./field.ts";
import { fluidField } from "./fluid-field.ts";
import { TEMPERATURES } from "./saturation.ts";

const range = z.strictObject({ from: z.number(), to: z.number() });
const readingSchema = z.strictObject({
  reading: z.enum(["low", "high", "vent"]),
  verdict: z.enum(["within", "higher", "lower", "undecided"]),
  reason: z
    .enum(["other-fluid", "outside-table", "cycling-clutch"])
    .optional()
    .describe("Why the table has no say"),
  limits: z
    .strictObject({ quantity: z.string(), value: z.number(), from: z.number(), to: z.number() })
    .optional()
    .describe("The condition that lies outside of the table, and the table's range, SI"),
  published: range.optional().describe("Range of the table here: gauge Pa, or K"),
  band: range.optional().describe("That range widened by twice the standard uncertainty"),
  difference: z
    .number()
    .optional()
    .describe("Distance to the published range, zero inside; Pa or K"),
  source: z.string().optional(),
});
const output = z.strictObject({
  readings: z.array(readingSchema),
  switchSettings: z
    .array(
      z.strictObject({
        end: z.enum(["lowest", "highest"]),
        position: z.enum(["among", "below", "above"]),
        published: range,
        sources: z.array(z.string()),
      }),
    )
    .describe(
      "Ends of a cycling low side against published switch settings, gauge Pa: information only",
    ),
  conditions: z.array(z.string()).describe("Conditions in which the table was measured"),
});

/** Gauges and thermometers that are assumed when none is stated (common practice, no source). */
const LOW_GAUGE: Accuracy = {
  kind: "percent-of-span-by-quarter",
  outer: 3,
  middle: 2,
  from: 0,
  to: 120 * unitSize("psi"),
};
const HIGH_GAUGE: Accuracy = { ...LOW_GAUGE, to: 500 * unitSize("psi") };
const THERMOMETER: Accuracy = { kind: "limit", limit: 2 };

/** Gauge pressure with its standard uncertainty; an absolute reading brings in that of the air. */
function onGauge(reading: PressureValue, gauge: Accuracy, air: LocalAir) {
  const p = reading.p - air.p;
  const { u } = instrumentUncertainty(gauge, p);
  return { p, u: reading.fromAir ? u : Math.hypot(u, air.u) };
}

function view(
  reading: "low" | "high" | "vent",
  verdict: TableVerdict,
): z.infer<typeof readingSchema> {
  if (verdict.kind === "undecided") {
    const { reason, limits } = verdict;
    return { reading, verdict: "undecided", reason, ...(limits && { limits: { ...limits } }) };
  }
  const { published, band, difference, source } = verdict;
  return { reading, verdict: verdict.verdict, published, band, difference, source };
}

const settingView = ({ end, position, published, sources }: SwitchComparison) => ({
  end,
  position,
  published,
  sources: [...sources],
});

const fields = {
  fluid: fluidField,
  ambient: quantity("temperature", "Air in front of the condenser", TEMPERATURES),
  low: optional(pressure("Low side, steady")),
  lowLowest: optional(pressure("Low side, lowest of a cycling clutch")),
  lowHighest: optional(pressure("Low side, highest of a cycling clutch")),
  high: optional(pressure("High side, steady")),
  highLowest: optional(pressure("High side, lowest of a cycling clutch")),
  highHighest: optional(pressure("High side, highest of a cycling clutch")),
  vent: optional(quantity("temperature", "Centre vent", TEMPERATURES)),
  returnAir: optional(quantity("temperature", "Recirculated air at the intake", TEMPERATURES)),
  returnHumidity: optional(fraction("Relative humidity of that air")),
  lowGauge: optional(accuracy("pressure-difference", "Accuracy of the low-side gauge")),
  highGauge: optional(accuracy("pressure-difference", "Accuracy of the high-side gauge")),
  thermometer: optional(accuracy("temperature-difference", "Accuracy of the thermometers")),
};
type Values = ValuesOf<typeof fields>;

const sides = ["low", "high"] as const;
const isCycling = (values: Values, side: "low" | "high"): boolean =>
  (values[`${side}Lowest`] ?? values[`${side}Highest`]) !== undefined;

/** What the schema cannot say: one form a side, a vent with the air that went in, and anything at all. */
function contradictions(values: Values): Issue | undefined {
  const both = sides.find((side) => values[side] !== undefined && isCycling(values, side));
  if (both !== undefined) {
    const accepted = `either ${both}, or ${both}Lowest and ${both}Highest: a cycling clutch has no single value`;
    return issue(both, "a steady value and the ends of a swing", accepted);
  }
  const { vent } = values;
  const missing = (["returnAir", "returnHumidity"] as const).find(
    (name) => values[name] === undefined,
  );
  if (vent !== undefined && missing !== undefined) {
    const accepted =
      "it is required with vent: a vent temperature means nothing without the air that went in";
    return issue(missing, undefined, accepted);
  }
  if (
    vent === undefined &&
    sides.every((side) => values[side] === undefined && !isCycling(values, side))
  ) {
    return issue("low", undefined, "at least one of low, high, their lowest and highest, or vent");
  }
  return undefined;
}

function withU(T: number, thermometer: Accuracy | undefined) {
  // A thermometer's percentage is of what its scale shows, in °C.
  return { T, u: rectangular(limitOfError(thermometer ?? THERMOMETER, T - 273.15)) };
}

function pressureView(values: Values, side: "low" | "high", air: LocalAir) {
  const { fluid } = values;
  const ambient = withU(values.ambient, values.thermometer);
  const steady = values[side];
  const gauge = values[`${side}Gauge`] ?? (side === "low" ? LOW_GAUGE : HIGH_GAUGE);
  if (steady !== undefined) {
    const pressure = { form: "steady", ...onGauge(steady, gauge, air) } as const;
    return [view(side, operatingPressure({ side, fluid, ambient, pressure }))];
  }
  if (!isCycling(values, side)) return [];
  const pressure = { form: "cycling", u: 0 } as const;
  return [view(side, operatingPressure({ side, fluid, ambient, pressure }))];
}

function ventView({ fluid, vent, returnAir, returnHumidity, thermometer }: Values) {
  if (vent === undefined || returnAir === undefined || returnHumidity === undefined) return [];
  const verdict = ventTemperature({
    fluid,
    inlet: withU(returnAir, thermometer),
    relativeHumidity: returnHumidity,
    vent: withU(vent, thermometer),
  });
  return [view("vent", verdict)];
}

function settingViews(values: Values, air: LocalAir) {
  return (["lowest", "highest"] as const).flatMap((end) => {
    const reading = end === "lowest" ? values.lowLowest : values.lowHighest;
    if (reading === undefined) return [];
    const { p, u } = onGauge(reading, values.lowGauge ?? LOW_GAUGE, air);
    return [settingView(cyclingSwitchPosition(end, p, u))];
  });
}

function assumptions({ lowGauge, highGauge, thermometer }: Values): readonly string[] {
  const grade = (side: string, span: number) =>
    `${side} gauge taken as grade B (3-2-3 %) of ${span} psi (common practice, no source); state its own.`;
  return [
    ...(lowGauge ? [] : [grade("Low-side", 120)]),
    ...(highGauge ? [] : [grade("High-side", 500)]),
    ...(thermometer
      ? []
      : ["Thermometers taken as good to 2 K (common practice, no source); state their own."]),
  ];
}

export const operatingCheck = defineCalculation({
  name: "operating-check",
  title: "Running readings against a published R134a table of another vehicle",
  fields,
  output,
  cautions: [cautions.running, cautions.ports, operatingCaution],
  sources: [
    "Published R134a table of one maker's vehicle (2010 coupe), for comparison only; settings of cycling switches of two others",
    "JCGM 100:2008 (GUM): class limit as rectangular, coverage factor 2",
  ],
  run(values, air) {
    const problem = contradictions(values);
    if (problem) return invalidInput(problem);
    return {
      kind: "answer",
      result: {
        readings: [
          ...pressureView(values, "low", air),
          ...pressureView(values, "high", air),
          ...ventView(values),
        ],
        switchSettings: settingViews(values, air),
        conditions: [...operatingConditions],
      },
      assumptions: assumptions(values),
    };
  },
});
