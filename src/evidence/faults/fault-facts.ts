import { z } from "zod";
import file from "../../../data/facts/fault-signs.json";
import { type FaultName, faultNames } from "./hypotheses.ts";
import type { FaultQuantity } from "./quantities.ts";

const readings = ["low", "high", "superheat", "subcooling", "vent", "static"] as const;
const direction = z.enum(["up", "down", "same"]);
const schema = z.strictObject({
  schema: z.literal(1),
  title: z.string(),
  about: z.string(),
  source: z.string().min(5),
  transcribed: z.string(),
  checked: z.string(),
  signsNeeded: z.number().int().positive(),
  signsNeededSource: z.string(),
  faults: z.record(
    z.enum(faultNames),
    z.strictObject({
      title: z.string(),
      signs: z.partialRecord(z.enum(readings), direction),
      settles: z.string(),
    }),
  ),
});
const data = schema.parse(file);

/** Title, published directions and what settles it, of a fault. */
export const faultFacts = (name: FaultName): (typeof data)["faults"][FaultName] =>
  data.faults[name];
/** The reading that a fault moves alone: no second sign of it can come from gauges and vent. */
export function onlySign(name: FaultName): FaultQuantity | undefined {
  const { signs } = data.faults[name];
  const [first, ...others] = readings.filter((one) => (signs[one] ?? "same") !== "same");
  return others.length === 0 ? first : undefined;
}
/** Independent signs before a fault is named. */
export const { signsNeeded } = data;
export const faultSources: readonly string[] = [data.source, data.signsNeededSource];
