import { airAssumptions } from "./air-fields.ts";
import { baselineField, conditionFields } from "./baseline-field.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { diagnosisSchema, diagnosisView } from "./diagnose-answer.ts";
import { readingsField } from "./diagnose-readings.ts";
import { optional } from "./field.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";
import { caseAssumptions, conditionsOf, vehicleFields } from "./vehicle-fields.ts";
import { MODEL_SOURCES, runCautions } from "./vehicle.ts";
import { diagnose, type DiagnosisRequest, faultSources } from "../evidence/index.ts";

const PRIORS =
  "Chances before any reading: 80 % sound, lack of charge the commonest fault, each of the others 1 to 3 % (a choice, no source).";

const usual = ({ readings }: DiagnosisRequest): readonly string[] =>
  readings.some(({ u }) => u === undefined)
    ? [
        "Readings without an uncertainty have that of usual shop instruments: 1.2 psi low, 4.7 psi high, 0.45 K vent, 1 to 2 K on lines (common practice, no source).",
      ]
    : [];

export const diagnoseCalculation = defineCalculation({
  name: "diagnose",
  title: "What is wrong with a vehicle's system, from its readings, and what to read next",
  fields: {
    vehicle: vehicleFields.vehicle,
    ...substanceFields,
    charge: vehicleFields.charge,
    ...conditionFields,
    readings: readingsField,
    baseline: optional(baselineField),
  },
  output: diagnosisSchema,
  cautions: [
    cautions.running,
    cautions.hotAndHigh,
    cautions.ports,
    cautions.identity,
    cautions.rules,
  ],
  sources: [
    ...faultSources,
    "Gaussian marginal likelihood of each fault over its severities, lumps of a sound vehicle integrated out: docs/models/faults.md",
    ...MODEL_SOURCES,
  ],
  run(values, air) {
    const substance = substanceOf(values);
    if (substance.kind === "invalid") return substance;
    const conditions = conditionsOf(values, air);
    if ("kind" in conditions) return conditions;
    const composition = {
      ids: substance.mass.map(({ fluid }) => fluid),
      fractions: substance.mass.map(({ fraction }) => fraction),
    };
    const request: DiagnosisRequest = {
      healthy: {
        vehicle: values.vehicle.vehicle,
        conditions,
        fill: { composition, charge: values.charge, air: 0 },
      },
      readings: values.readings,
      ...(values.baseline && { baseline: values.baseline }),
    };
    const found = diagnose(request);
    if (found.kind === "no-diagnosis") {
      const fluid = found.reason === "no-properties";
      return {
        kind: "no-answer",
        reason: "no-solution",
        message: fluid
          ? `${substance.name} cannot be followed between liquid and vapour over the pressures of a vehicle's system.`
          : "A sound vehicle of this kind would not run steadily in these conditions, so there is nothing to compare with. Check charge, weather and engine speed.",
        numbers: { charge: values.charge, ambient: values.ambient },
      };
    }
    return {
      kind: "answer",
      result: diagnosisView(found),
      cautions: runCautions(substance),
      sources: substanceSources(substance),
      assumptions: [
        ...caseAssumptions(values),
        ...airAssumptions(air),
        ...usual(request),
        PRIORS,
        values.baseline === undefined || values.baseline.length === 0
          ? "No baseline of this vehicle: it may differ from its kind as far as the priors say."
          : "Narrowed by the baseline of this vehicle.",
      ],
    };
  },
});
