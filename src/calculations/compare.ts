import { z } from "zod";
import {
  type FairComparison,
  fairComparisonOf,
  parseExport,
  project,
  type TrialEvent,
} from "../trial/index.ts";
import { issue } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { count, type Field, optional } from "./field.ts";
import { MODEL_SOURCES } from "./vehicle.ts";

const estimate = z.strictObject({ value: z.number(), u: z.number() });
const interval = z.strictObject({ from: z.number(), to: z.number() });
const quantityName = z.enum(["vent", "low", "high"]);
const form = z.enum(["steady", "lowest", "highest"]);
const condition = z.enum(["parked-idle", "parked-raised-idle", "road-steady", "road-mixed"]);
const verdict = z.enum(["equivalent", "colder", "warmer", "lower", "higher", "undecided"]);

const rowSchema = z.strictObject({
  product: z.string().describe("Id of the product's entry"),
  name: z.string(),
  condition,
  quantity: quantityName.describe("vent in K; low and high side in Pa"),
  form: form.describe("A settled value, or an end of a cycling clutch's swing"),
  asMeasured: estimate.describe(
    "Product minus label refrigerant as read, standard uncertainty of reading",
  ),
  equalConditions: estimate.describe("The same in the conditions of the product's runs"),
  interval: interval.describe("95 % in equal conditions"),
  margin: z.number(),
  verdict,
  smallestDetectable: z
    .number()
    .describe("Difference that a trial like this one finds in four of five cases"),
  discrepancy: z.number().describe("Share of the uncertainty from what the model leaves out"),
  drift: z.number().describe("Share from the vehicle's own drift"),
  baselineRuns: z.int(),
  productRuns: z.int(),
});

const output = z.strictObject({
  rows: z.array(rowSchema),
  standard: z.array(
    z.strictObject({
      product: z.string(),
      name: z.string(),
      quantity: quantityName,
      ambient: z.number(),
      humidity: z.number(),
      driving: z.boolean().describe("72 km/h (45 mph), else parked at idle"),
      label: estimate.describe("What the label refrigerant should read there"),
      effect: estimate,
      interval,
      verdict,
    }),
  ),
  drift: z.array(
    z.strictObject({ condition, quantity: quantityName, form, drift: estimate, interval }),
  ),
  calibration: z.strictObject({
    lumps: z.array(
      z.strictObject({
        name: z.string(),
        what: z.string(),
        unit: z.string(),
        form: z.enum(["shift", "factor"]),
        prior: estimate.describe("u of a factor is that of its logarithm"),
        posterior: estimate,
      }),
    ),
    readings: z.int(),
    chiSquare: z.number(),
    settled: z.boolean(),
  }),
  marginLate: z.boolean().describe("The margin was entered after the first run"),
});

const mostIssues = 40;

const trialField: Field<readonly TrialEvent[]> = {
  schema: z
    .record(z.string(), z.unknown())
    .describe("A trial as it is exported: {format, version, trial, events}"),
  required: true,
  read(raw, name) {
    const parsed = parseExport(raw);
    if (parsed.kind === "export") return { kind: "value", value: parsed.events };
    return {
      kind: "unusable",
      issues: parsed.issues
        .slice(0, mostIssues)
        .map(({ field, value, accepted }) => issue(`${name}.${field}`, value, accepted)),
    };
  },
};

export const COMPARISON_SOURCES: readonly string[] = [
  "Comparison in equal conditions: docs/models/comparison.md (discrepancy: Kennedy and O'Hagan, J. R. Stat. Soc. B 63 (2001) 425; equivalence by inclusion: Schuirmann, J. Pharmacokinet. Biopharm. 15 (1987) 657)",
];

const ESTIMATOR =
  "The model runs on the label refrigerant only; what it would forecast for a product counts as no evidence.";

export const compareCalculation = defineCalculation({
  name: "compare",
  title: "Products of a trial against the label refrigerant in equal conditions",
  fields: {
    trial: trialField,
    seed: optional(count("Seed of the draws; 1", { from: 0, to: 2 ** 31 - 1 })),
  },
  output,
  cautions: [cautions.identity, cautions.rules],
  sources: [...COMPARISON_SOURCES, ...MODEL_SOURCES],
  run({ trial, seed }) {
    const view = project(trial);
    const found = fairComparisonOf(view, seed === undefined ? {} : { seed });
    if (found.kind === "none") {
      return { kind: "no-answer", reason: "no-solution", message: found.why, numbers: {} };
    }
    const nameOf = (id: string): string =>
      view.products.find((product) => product.id === id)?.name ?? id;
    return {
      kind: "answer",
      result: resultOf(found, nameOf),
      assumptions: [ESTIMATOR, ...found.assumptions],
    };
  },
});

function resultOf(
  { rows, standard, drift, calibration, margin }: FairComparison & { kind: "compared" },
  nameOf: (id: string) => string,
): z.infer<typeof output> {
  return {
    rows: rows.map((row) => ({ ...row, name: nameOf(row.product) })),
    standard: standard.map((row) => ({ ...row, name: nameOf(row.product) })),
    drift: [...drift],
    calibration: { ...calibration, lumps: [...calibration.lumps] },
    marginLate: margin.late,
  };
}
