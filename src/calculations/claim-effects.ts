import { z } from "zod";
import { type Field, unusable } from "./field.ts";

const LARGEST = 1e9;
const finite = z.number().min(-LARGEST).max(LARGEST);

const effect = z.strictObject({
  quantity: z.enum(["vent-temperature", "low-side", "high-side"]),
  condition: z
    .enum(["parked-idle", "parked-raised-idle", "road-steady", "road-mixed"])
    .describe("In which both were run"),
  basis: z.enum(["equal-conditions", "as-measured"]),
  effect: finite.describe("Product minus label refrigerant, K or Pa"),
  lower: finite.optional().describe("Lower end of the 95 % interval"),
  upper: finite.optional().describe("Upper end"),
  u: z
    .number()
    .min(0)
    .max(LARGEST)
    .optional()
    .describe("Standard uncertainty, instead of the ends"),
  unequal: z
    .string()
    .max(400)
    .optional()
    .describe("Of what is as measured: what was not equal; nothing if all conditions were"),
});
export type EffectValue = z.infer<typeof effect>;

const MOST = 40;

/** Differences of a trial; each needs its interval, by both ends or by a standard uncertainty. */
export function effectField(says: string): Field<readonly EffectValue[]> {
  return {
    schema: z.array(effect).max(MOST).describe(says),
    required: true,
    read(raw, name) {
      const parsed = z.array(effect).max(MOST).safeParse(raw);
      if (!parsed.success) return unusable(name, raw, "a list of differences");
      const value = parsed.data;
      for (const [i, { effect: at, lower, upper, u }] of value.entries()) {
        const ends = lower !== undefined && upper !== undefined && lower <= at && at <= upper;
        if (!ends && (u === undefined || lower !== undefined || upper !== undefined)) {
          return unusable(`${name}[${i}]`, at, "lower ≤ effect ≤ upper, or u instead of both ends");
        }
      }
      return { kind: "value", value };
    },
  };
}
