import { airAssumptions } from "./air-fields.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { diagnosisSchema, diagnosisView } from "./diagnose-answer.ts";
import { type NamedRun, runFields, runsOf } from "./run-fields.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";
import { caseAssumptions, vehicleFields } from "./vehicle-fields.ts";
import { MODEL_SOURCES, runCautions } from "./vehicle.ts";
import { diagnose, type DiagnosisRequest, faultSources } from "../evidence/index.ts";

const PRIORS =
  "Chances before any reading: 80 % sound, lack of charge the commonest fault, each of the others 1 to 3 % (a choice, no source).";

const usual = (runs: readonly NamedRun[]): readonly string[] =>
  runs.some(({ readings }) => readings.some(({ u }) => u === undefined))
    ? [
        "Readings without an uncertainty have that of usual shop instruments: 1.2 psi low, 4.7 psi high, 0.45 K vent, 1 to 2 K on lines (common practice, no source).",
      ]
    : [];

/** Several runs are told apart by their names; one run needs none. */
const runNames = (runs: readonly NamedRun[]): readonly string[] =>
  runs.map(({ name }, k) => name ?? (runs.length > 1 ? `run ${k + 1}` : "this run"));

function runAssumptions(
  vehicle: Parameters<typeof caseAssumptions>[0]["vehicle"],
  runs: readonly NamedRun[],
): readonly string[] {
  const names = runNames(runs);
  const said = runs.map(({ told }) => caseAssumptions({ ...told, vehicle }));
  const [first = []] = said;
  const everywhere = first.filter((text) => said.every((own) => own.includes(text)));
  const here = said.flatMap((own, k) =>
    own.filter((text) => !everywhere.includes(text)).map((text) => `${names[k] ?? ""}: ${text}`),
  );
  return [...everywhere, ...here];
}

export const diagnoseCalculation = defineCalculation({
  name: "diagnose",
  title: "What is wrong with a vehicle's system, from its readings, and what to read next",
  fields: {
    vehicle: vehicleFields.vehicle,
    ...substanceFields,
    charge: vehicleFields.charge,
    ...runFields,
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
    const runs = runsOf(values, air);
    if ("kind" in runs) return runs;
    const composition = {
      ids: substance.mass.map(({ fluid }) => fluid),
      fractions: substance.mass.map(({ fraction }) => fraction),
    };
    const request: DiagnosisRequest = {
      healthy: {
        vehicle: values.vehicle.vehicle,
        fill: { composition, charge: values.charge, air: 0 },
      },
      runs,
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
        numbers: { charge: values.charge, ambient: runs[0]?.conditions.ambient ?? 0 },
      };
    }
    return {
      kind: "answer",
      result: diagnosisView(found, runNames(runs)),
      cautions: runCautions(substance),
      sources: substanceSources(substance),
      assumptions: [
        ...runAssumptions(values.vehicle, runs),
        ...airAssumptions(air),
        ...usual(runs),
        PRIORS,
        values.baseline === undefined || values.baseline.length === 0
          ? "No baseline of this vehicle: it may differ from its kind as far as the priors say."
          : "Narrowed by the baseline of this vehicle.",
      ],
    };
  },
});
