import {
  type Conditions,
  createRunWork,
  type Running,
  runVehicle,
  type Start,
  type Vehicle,
} from "../../vehicle/index.ts";
import type {
  ComparableRun,
  ComparedForm,
  ComparedQuantity,
  ComparisonInput,
} from "./comparable.ts";

/** The model of the vehicle on its label refrigerant, in the conditions of each run. */
export interface LabelModel {
  /**
   * @param run         Place of the run.
   * @param conditions  Its own unless others are given.
   * @returns           Undefined where the model does not run.
   */
  run(run: number, vehicle: Vehicle, conditions?: Conditions): Running | undefined;
}

/** Keeps a start for each run, so that neighbouring solves are short; the answers do not depend on it. */
export function createLabelModel({
  label,
  runs,
}: Pick<ComparisonInput, "label" | "runs">): LabelModel {
  const work = createRunWork();
  const starts: (Start | undefined)[] = runs.map(() => undefined);
  return {
    run(at, vehicle, conditions) {
      const run = runs[at] as ComparableRun;
      const request = {
        vehicle,
        conditions: conditions ?? run.conditions,
        fill: { composition: label, charge: run.charge, air: 0 },
      };
      const found = runVehicle(request, work, starts[at]);
      if (found.kind !== "running") return undefined;
      starts[at] ??= found.start;
      return found;
    },
  };
}

/** What a person or a logger would read of a steady state; a head that is typed is read while the clutch is engaged. */
export function readOf(
  state: Running,
  quantity: ComparedQuantity,
  form: ComparedForm,
  offset: number,
): number {
  switch (quantity) {
    case "vent":
      return state.vent + offset;
    case "low":
      if (form === "steady") return state.low;
      return (form === "lowest" ? state.lowRange?.from : state.lowRange?.to) ?? state.low;
    case "high":
      return form === "lowest" ? state.high : (state.highOn ?? state.high);
  }
}
