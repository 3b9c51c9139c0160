import type { Evidence, ReadRun } from "../evidence/index.ts";
import { findBlend } from "./blend-field.ts";
import type { ItemOf } from "./contents-items.ts";
import type { Reader } from "./contents-reader.ts";
import { quantity } from "./field.ts";
import { findFluid } from "./fluid-field.ts";
import { runsField } from "./run-fields.ts";
import { vehicleField } from "./vehicle-field.ts";

type Running = Extract<Evidence, { kind: "running" }>;

const CHARGE = quantity("mass", "Net mass that was charged", { from: 1e-2, to: 20 });
/** Of a charge whose uncertainty is not told (common practice, no source). */
const ASSUMED_CHARGE = 0.02;
/** Readings that the vehicle's model is compared by. */
const COMPARED: readonly string[] = ["low", "high", "vent"];

const RUNS = runsField("Runs.");
const bare = ({ conditions, readings }: ReadRun): ReadRun => ({ conditions, readings });

/** A vehicle that ran on a weighed charge of the content. */
export function runningItem(raw: ItemOf<"running">, reader: Reader): Running | undefined {
  const vehicle = reader.read(vehicleField, raw.vehicle, "vehicle");
  const charge = reader.read(CHARGE, raw.charge, "charge");
  const uCharge = reader.uncertainty(raw.chargeU, "chargeU");
  const runs = reader.read(RUNS, raw.runs, "runs") ?? [];
  const baseline = reader.read(RUNS, raw.baseline, "baseline") ?? [];
  const label = findFluid(raw.label) ?? findBlend(raw.label)?.blend;
  if (label === undefined) reader.refuse("label", raw.label, "a pure fluid or a named blend");
  runs.forEach(({ readings }, k) => {
    if (!readings.some((one) => COMPARED.includes(one.quantity))) {
      reader.refuse(`runs[${k}].readings`, "none of them", "at least one of low, high and vent");
    }
  });
  if (raw.runs instanceof Array && raw.runs.length === 0) {
    reader.refuse("runs", "none", "at least one run");
  }
  if (charge !== undefined && uCharge !== undefined && uCharge > charge) {
    reader.refuse("chargeU", uCharge, "a standard uncertainty below the charge");
  }
  if (!vehicle || charge === undefined || label === undefined) return undefined;
  return {
    kind: "running",
    vehicle: vehicle.vehicle,
    label,
    charge,
    uCharge: uCharge ?? ASSUMED_CHARGE * charge,
    runs: runs.map(bare),
    baseline: baseline.map(bare),
  };
}
