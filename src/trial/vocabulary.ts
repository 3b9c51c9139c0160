import { z } from "zod";

/** The words that events are written in: stages, quantities and forms of readings, limits of error. */

/** A value as the instrument or the person said it. Projections convert to SI; the log keeps this. */
export const quantitySchema = z.strictObject({
  value: z.number(),
  unit: z.string().min(1).max(24),
});

export const stages = [
  "plan",
  "prove",
  "recover",
  "evacuate",
  "charge",
  "run",
  "identify",
  "restore",
  "compare",
  "hazards",
  "claims",
  "publish",
] as const;
export type Stage = (typeof stages)[number];

/** Stages that are walked once a product; their entries carry the product's id as `round`. */
export const repeatedStages = ["recover", "evacuate", "charge", "run", "identify"] as const;

export const readingQuantities = [
  "static-low",
  "static-high",
  "metal-temperature",
  "low-side",
  "high-side",
  "vent-temperature",
  "return-air-temperature",
  "return-air-humidity",
  "outside-temperature",
  "outside-humidity",
  "shop-temperature",
  "barometer",
  "vehicle-speed",
  "engine-speed",
  "vacuum",
  "gross-mass",
  "can-volume",
  "oil-drained",
  "oil-returned",
  "pump-time",
  "discharge-temperature",
  "suction-line-temperature",
  "liquid-line-temperature",
  "superheat",
  "subcooling",
  "clutch-duty",
  "vessel-pressure",
  "vessel-temperature",
  "boiling-temperature",
] as const;
export type ReadingQuantity = (typeof readingQuantities)[number];

/** How the value stands in time: settled, or one end of a cycling clutch's swing. */
export const readingForms = ["steady", "lowest", "highest"] as const;
export type ReadingForm = (typeof readingForms)[number];

/** Limits of error as makers and standards state them; turned into standard uncertainty by GUM rules. */
export const accuracySchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("percent-of-span"),
    percent: z.number().positive().max(50),
    from: quantitySchema,
    to: quantitySchema,
  }),
  z.strictObject({
    kind: z.literal("percent-of-span-by-quarter"),
    outer: z.number().positive().max(50),
    middle: z.number().positive().max(50),
    from: quantitySchema,
    to: quantitySchema,
  }),
  z.strictObject({ kind: z.literal("limit"), limit: quantitySchema }),
  z.strictObject({
    kind: z.literal("percent-of-reading"),
    percent: z.number().positive().max(100),
  }),
  z.strictObject({
    kind: z.literal("limit-or-percent"),
    limit: quantitySchema,
    percent: z.number().positive().max(100),
  }),
]);
export type Accuracy = z.infer<typeof accuracySchema>;
