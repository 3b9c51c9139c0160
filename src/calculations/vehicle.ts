import { z } from "zod";
import { airAssumptions } from "./air-fields.ts";
import type { InvalidInput } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { type Substance, substanceOf, substanceSources } from "./substance-field.ts";
import {
  bandSchema,
  bandView,
  noPack,
  NOTES,
  readingsSchema,
  readingsView,
  runSchema,
  runView,
  stateFields,
  STOPPED,
  UNRESOLVED,
} from "./vehicle-answer.ts";
import {
  caseAssumptions,
  type CaseValues,
  conditionsOf,
  faultsOf,
  vehicleFields,
} from "./vehicle-fields.ts";
import { flammabilityOf, type LocalAir } from "../service/index.ts";
import {
  bandOf,
  createRunWork,
  type Running,
  runVehicle,
  type RunWork,
  sound,
  type VehicleCase,
  type VehicleRun,
} from "../vehicle/index.ts";

const output = runSchema
  .partial()
  .extend({
    ...stateFields,
    band: bandSchema.optional(),
    uncertainParameters: z
      .array(z.string())
      .optional()
      .describe("Parameters at whose ends the system would not run: the band leaves them out"),
    healthy: readingsSchema
      .optional()
      .describe("The same system without the faults and without air, if it runs"),
    resting: z.number().optional().describe("Resting pressure at ambient, Pa, of one that stops"),
    notes: z.array(z.strictObject({ code: z.string(), text: z.string() })),
  })
  .strict();

export const MODEL_SOURCES: readonly string[] = [
  "Steady-state model of the vehicle's system: docs/models/vehicle.md (effectiveness-NTU after Kays and London; wet coil after Braun, Klein and Mitchell, ASHRAE Trans. 95(2) 1989; void fraction: Zivi, J. Heat Transfer 86 (1964) 247; orifice: homogeneous equilibrium, fitted to Payne and O'Neal, HVAC&R Research 10(1) 2004, 73)",
  "Parameters and ranges of the presets: data/facts/vehicle-presets.json; most are common practice without a source",
];

const PRESET =
  "Parameters that were not given are those of the preset, not of this vehicle: a model, not a limit for it. The vehicle maker's figures come first.";

/** A request to the model from the read values. */
export interface Asked {
  readonly kind: "asked";
  readonly substance: Substance;
  readonly request: VehicleCase;
}

/** Puts a case together, or says what contradicts. */
export function askedOf(
  values: CaseValues & Parameters<typeof substanceOf>[0],
  air: LocalAir,
): Asked | InvalidInput {
  const substance = substanceOf(values);
  if (substance.kind === "invalid") return substance;
  const conditions = conditionsOf(values, air);
  if ("kind" in conditions) return conditions;
  const { faults, charge } = faultsOf(values);
  const composition = {
    ids: substance.mass.map(({ fluid }) => fluid),
    fractions: substance.mass.map(({ fraction }) => fraction),
  };
  return {
    kind: "asked",
    substance,
    request: {
      vehicle: values.vehicle.vehicle,
      conditions,
      faults,
      fill: { composition, charge, air: values.air ?? 0 },
    },
  };
}

/** Cautions of a substance in a running system. */
export const runCautions = (substance: Substance): readonly string[] =>
  flammabilityOf(substance.moles, substance.named).kind === "does-not-burn"
    ? []
    : [cautions.flammable];

/** A state that is no running one; `undefined` for a running one and for a fluid without a pack. */
export function standingView(run: VehicleRun) {
  switch (run.kind) {
    case "running":
    case "no-pack":
      return undefined;
    case "stopped": {
      const { reason, resting } = run;
      return { state: run.kind, converged: true, reason, message: STOPPED[reason], resting };
    }
    case "unresolved": {
      const { reason } = run;
      return { state: run.kind, converged: false, reason, message: UNRESOLVED[reason] };
    }
  }
}

function healthyOf(values: CaseValues, request: VehicleCase, work: RunWork): Running | undefined {
  if (values.faults === undefined && values.air === undefined) return undefined;
  const fill = { ...request.fill, charge: values.charge, air: 0 };
  const run = runVehicle({ ...request, faults: sound, fill }, work);
  return run.kind === "running" ? run : undefined;
}

export const vehicleCalculation = defineCalculation({
  name: "vehicle",
  title: "What gauges and vents of a vehicle should read, with any refrigerant, and with faults",
  fields: vehicleFields,
  output,
  cautions: [cautions.running, cautions.equation, cautions.identity, cautions.rules],
  sources: MODEL_SOURCES,
  run(values, air) {
    const asked = askedOf(values, air);
    if (asked.kind === "invalid") return asked;
    const { substance, request } = asked;
    const work = createRunWork();
    const run = runVehicle(request, work);
    if (run.kind === "no-pack") return noPack(substance.name, run);
    const healthy = healthyOf(values, request, work);
    const beside = {
      cautions: [...runCautions(substance), PRESET],
      sources: substanceSources(substance),
      assumptions: [...caseAssumptions(values), ...airAssumptions(air)],
    };
    const shared = healthy ? { healthy: readingsView(healthy) } : {};
    if (run.kind !== "running") {
      const standing = standingView(run);
      if (!standing) throw new RangeError("a run that stands has a view");
      return { kind: "answer", ...beside, result: { ...standing, ...shared, notes: [] } };
    }
    const known = values.vehicle.given;
    const band = values.band === true ? bandOf(request, run, known, work) : undefined;
    return {
      kind: "answer",
      ...beside,
      result: {
        state: "running" as const,
        converged: true,
        ...runView(run),
        ...(band && { band: bandView(band), uncertainParameters: [...band.missing] }),
        ...shared,
        notes: run.notes.map((code) => ({ code, text: NOTES[code] })),
      },
    };
  },
});
