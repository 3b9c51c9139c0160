import { z } from "zod";
import { runsField } from "./run-fields.ts";
import { vehicleField } from "./vehicle-field.ts";

const measure = z.union([z.number(), z.string().max(80)]);
const name = z.string().max(80).optional();
const vessel = z.enum(["can", "vehicle"]).optional();
const runs = (says: string) => runsField(`Runs ${says}.`).schema;
/** Shape of one piece of evidence as a user gives it. */
export const item = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("pressure"),
    pressure: measure,
    temperature: measure,
    gauge: measure.optional(),
    thermometer: measure.optional(),
    pressureU: z.number().optional(),
    temperatureU: z.number().optional(),
    gaugeName: name,
    thermometerName: name,
    vessel,
  }),
  z.strictObject({
    kind: z.literal("boiling"),
    temperature: measure,
    pressure: measure.optional(),
    thermometer: measure.optional(),
    temperatureU: z.number().optional(),
    thermometerName: name,
  }),
  z.strictObject({
    kind: z.literal("fill"),
    mass: measure,
    volume: measure,
    massU: z.number().optional(),
    volumeU: z.number().optional(),
    vessel,
    full: z.boolean().optional(),
  }),
  z.strictObject({
    kind: z.literal("liquid-density"),
    density: measure,
    densityU: z.number().optional(),
    temperature: measure,
  }),
  z.strictObject({
    kind: z.literal("identifier"),
    parts: z
      .array(z.strictObject({ substance: z.string().max(40), percent: z.number() }))
      .min(1)
      .max(12),
    percentU: z.number().optional(),
  }),
  z.strictObject({
    kind: z.literal("detector"),
    detects: z.enum(["combustible", "halogen"]),
    responded: z.boolean(),
    falseYes: measure.optional(),
    falseNo: measure.optional(),
  }),
  z.strictObject({
    kind: z.literal("running"),
    vehicle: vehicleField.schema,
    label: z.string().max(60).describe("Refrigerant that the vehicle was made for"),
    charge: measure.describe("Net mass of the content that was charged"),
    chargeU: z.number().optional(),
    runs: runs("on the content, each its conditions and readings: low, high and vent count"),
    baseline: runs(
      "on the label refrigerant and charge while the vehicle was sound: they calibrate its model",
    ).optional(),
  }),
  z.strictObject({
    kind: z.literal("label"),
    declares: z.string().max(60),
    trust: measure.optional(),
  }),
]);
export type Item = z.infer<typeof item>;
/** One kind of them. */
export type ItemOf<K extends Item["kind"]> = Extract<Item, { kind: K }>;
