import { z } from "zod";
import published from "../../../data/facts/charging.json";
import { type Fact, sourced, trusts } from "../substances/fact.ts";

const number = z.strictObject({
  value: z.number(),
  unit: z.string(),
  printed: z.string(),
  source: z.string(),
  trust: z.enum(trusts),
  note: z.string().optional(),
});
const names = [
  "massTolerance",
  "toleranceCharge",
  "scaleShare",
  "canFill",
  "hoseBore",
  "hoseLength",
  "hosePressure",
  "glide",
  "ambient",
  "condensing",
] as const;
const file = z
  .strictObject({
    schema: z.literal(1),
    title: z.string(),
    about: z.string(),
    transcribed: z.string(),
    sources: z.record(z.string(), z.string()),
    numbers: z.record(z.enum(names), number),
  })
  .parse(published);

/** A number that charging is held against: SI, with its printed form and source. */
export const chargingNumber = (
  name: (typeof names)[number],
): Fact<number> & { readonly printed: string } => sourced(file.numbers[name], file.sources);
