import type { Answer, FullAnswer } from "./answer.ts";
import { invalidInput, issue } from "./answer.ts";
import { airAssumptions } from "./air-fields.ts";
import { airInSystem } from "./air-in-system.ts";
import { cabinLeak } from "./cabin-leak.ts";
import { claim } from "./claim.ts";
import { climate } from "./climate.ts";
import { cycle } from "./cycle.ts";
import { combineTrialsCalculation } from "./combine-trials.ts";
import { compareCalculation } from "./compare.ts";
import { chargeTarget } from "./charge-target.ts";
import { cylinderLimitCalculation } from "./cylinder-limit.ts";
import type { Calculation } from "./definition.ts";
import { diagnoseCalculation } from "./diagnose.ts";
import { flammability } from "./flammability.ts";
import { identifyCalculation } from "./identify.ts";
import { operatingCheck } from "./operating-check.ts";
import { phaseDiagramCalculation } from "./phase-diagram.ts";
import { planCalculation } from "./plan.ts";
import { noncondensable } from "./noncondensable.ts";
import { evacuationDepthCalculation } from "./evacuation-depth.ts";
import { pumpDownCalculation } from "./pump-down.ts";
import { readInput } from "./read-input.ts";
import { residualCalculation } from "./residual.ts";
import { saturation } from "./saturation.ts";
import { state } from "./state.ts";
import { staticCheckCalculation } from "./static-check.ts";
import { vacuumCheckCalculation } from "./vacuum-check.ts";
import { vacuumHoldCalculation } from "./vacuum-hold.ts";
import { sweepCalculation } from "./sweep.ts";
import { vehicleCalculation } from "./vehicle.ts";
import { vesselCalculation } from "./vessel.ts";
import { waterBoilingCalculation } from "./water-boiling.ts";
import { withdrawCalculation } from "./withdraw.ts";

/** Every computation offered to a user. */
export const calculations: readonly Calculation[] = [
  saturation,
  state,
  staticCheckCalculation,
  waterBoilingCalculation,
  vacuumCheckCalculation,
  operatingCheck,
  flammability,
  climate,
  cycle,
  vesselCalculation,
  withdrawCalculation,
  airInSystem,
  phaseDiagramCalculation,
  vehicleCalculation,
  sweepCalculation,
  identifyCalculation,
  compareCalculation,
  combineTrialsCalculation,
  planCalculation,
  cylinderLimitCalculation,
  residualCalculation,
  noncondensable,
  chargeTarget,
  cabinLeak,
  claim,
  diagnoseCalculation,
  evacuationDepthCalculation,
  pumpDownCalculation,
  vacuumHoldCalculation,
];

/** The calculation of this name; `undefined` if there is none. */
export const findCalculation = (name: string): Calculation | undefined =>
  calculations.find((calculation) => calculation.name === name);

/** Did any field of the input count from the local air? */
const usesAir = (values: Readonly<Record<string, unknown>>): boolean =>
  Object.values(values).some(
    (value) =>
      typeof value === "object" && value !== null && "fromAir" in value && value.fromAir === true,
  );

const union = (...lists: readonly (readonly string[])[]): string[] => [...new Set(lists.flat())];

/**
 * Answers one request, whatever was sent.
 *
 * @param name  Name of a calculation.
 * @param input Anything; see the calculation's `input` schema for what is understood.
 * @returns an answer, the issues of the input, or the reason why there is no answer. Never throws for its input;
 *          no number in it is NaN or infinite.
 */
export function compute(name: string, input: unknown): Answer {
  const calculation = findCalculation(name);
  if (!calculation) {
    const names = calculations.map((known) => known.name).join(", ");
    return invalidInput(issue("name", name, `a calculation out of: ${names}`));
  }
  const read = readInput(calculation, input);
  if (read.kind === "invalid") return read;
  const outcome = calculation.run(read.values, read.air);
  if (outcome.kind !== "answer") return outcome;
  const given = read.values["altitude"] !== undefined || read.values["barometer"] !== undefined;
  const assumed = given || usesAir(read.values) ? airAssumptions(read.air) : [];
  const assumptions = union(outcome.assumptions ?? [], assumed);
  const answer: FullAnswer<unknown> = {
    kind: "answer",
    result: outcome.result,
    ...(outcome.uncertainty && { uncertainty: outcome.uncertainty }),
    cautions: union(calculation.cautions, outcome.cautions ?? []),
    sources: union(outcome.sources ?? [], calculation.sources),
    ...(assumptions.length > 0 && { assumptions }),
  };
  return answer;
}
