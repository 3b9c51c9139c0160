import { z } from "zod";
import { presetNames } from "../vehicle/index.ts";
import { claimKinds } from "./findings/claims/kinds.ts";
import {
  accuracySchema,
  quantitySchema,
  readingForms,
  readingQuantities,
  stages,
} from "./vocabulary.ts";

export {
  type Accuracy,
  accuracySchema,
  quantitySchema,
  type ReadingForm,
  readingForms,
  readingQuantities,
  type ReadingQuantity,
  repeatedStages,
  type Stage,
  stages,
} from "./vocabulary.ts";

/**
 * The log's vocabulary. An event is never edited: `entry-corrected` and `entry-withdrawn` name what
 * they change, and the first entry stays in the log. Things (instrument, product, vessel, run, trace)
 * are named by the id of the event that listed them.
 */

const text = (max: number) => z.string().trim().max(max);
const label = text(120).min(1);
const id = z.uuid();
const instant = z.iso.datetime({ offset: true });
const stage = z.enum(stages);
/** Ids of other entries; a vessel may also be the vehicle itself. */
const vessel = z.union([z.literal("vehicle"), id]);

/** A refrigerant by fluid id, or a product by its entry: what a vessel holds, as far as anyone knows. */
const substance = z.union([
  z.strictObject({ kind: z.literal("fluid"), fluid: text(24).min(1) }),
  z.strictObject({ kind: z.literal("product"), product: id }),
]);
export type Substance = z.infer<typeof substance>;

const estimate = z.strictObject({ mass: quantitySchema, limit: quantitySchema });

const weighing = z.strictObject({
  before: quantitySchema,
  after: quantitySchema,
  instrument: id.optional(),
});

const where = { stage, round: id.optional(), when: instant.optional() };

/** Body of each event type, version 1. */
export const bodySchemas = {
  "trial-opened": z.strictObject({
    title: label,
    question: text(1000),
    place: text(200).optional(),
    altitude: quantitySchema.optional(),
    barometer: quantitySchema.optional(),
    /** Smallest vent-temperature difference that matters, fixed before the data. */
    margin: quantitySchema.optional(),
    conditions: text(1000).optional(),
    demonstration: z.boolean().optional(),
  }),
  "vehicle-described": z.strictObject({
    name: label,
    labelRefrigerant: text(24).min(1),
    labelCharge: quantitySchema,
    meteringDevice: z.enum(["orifice-tube", "expansion-valve", "unknown"]),
    compressor: z.enum(["fixed-cycling", "fixed-always-on", "variable", "electric", "unknown"]),
    oil: text(80).optional(),
    cabinVolume: quantitySchema.optional(),
    internalVolume: quantitySchema.optional(),
    /** Which kind of system forecasts assume, and parameters known better than its own (SI, the model's names). */
    model: z
      .strictObject({
        preset: z.enum(presetNames),
        refined: z.record(text(40).min(1), z.number()).optional(),
      })
      .optional(),
  }),
  "instrument-listed": z.strictObject({
    name: label,
    measures: z.enum(["pressure", "temperature", "mass", "vacuum", "humidity", "other"]),
    accuracy: accuracySchema,
    resolution: quantitySchema.optional(),
  }),
  "product-listed": z.strictObject({
    name: label,
    /** What it declares to be, when that is a fluid known here. */
    fluid: text(24).optional(),
    declares: text(400).optional(),
    labelMass: quantitySchema.optional(),
    claims: z.array(text(300).min(1)).max(40),
    price: text(40).optional(),
    fitting: text(120).optional(),
    flammableMark: z.boolean(),
  }),
  "vessel-listed": z.strictObject({
    name: label,
    kind: z.enum(["can", "cylinder", "hose-set", "other"]),
    tare: quantitySchema.optional(),
    /** Mass of water (trade practice) or volume. */
    waterCapacity: quantitySchema.optional(),
    ratedPressure: quantitySchema.optional(),
    flammableRated: z.boolean().optional(),
    /** Stamped date until which it may be filled. */
    retestBy: z.iso.date().optional(),
    holds: z
      .strictObject({
        substance,
        mass: quantitySchema,
        /** `weighed` carries the scale's uncertainty; `declared` is somebody's word. */
        basis: z.enum(["weighed", "declared"]),
        instrument: id.optional(),
      })
      .optional(),
  }),
  "reading-taken": z.strictObject({
    ...where,
    quantity: z.enum(readingQuantities),
    value: quantitySchema,
    form: z.enum(readingForms),
    instrument: id.optional(),
    place: text(120).optional(),
    run: id.optional(),
    vessel: vessel.optional(),
    note: text(500).optional(),
  }),
  "transfer-posted": z
    .strictObject({
      ...where,
      from: vessel,
      to: z.union([vessel, z.literal("lost")]),
      sourceWeighing: weighing.optional(),
      destinationWeighing: weighing.optional(),
      /** When nothing was weighed: an estimate with its limit of error. */
      stated: estimate.optional(),
      /** Lost from hoses on the way: part of what the source gave, not of what arrived. */
      purged: estimate.optional(),
      phase: z.enum(["liquid", "vapour", "unknown"]).optional(),
      note: text(500).optional(),
    })
    .refine((body) => body.sourceWeighing ?? body.destinationWeighing ?? body.stated, {
      error:
        "a transfer needs its evidence: a weighing of the source or of the destination, or an estimate with its limit",
    }),
  "vessel-found-empty": z.strictObject({ ...where, vessel, evidence: text(300) }),
  "run-recorded": z.strictObject({
    ...where,
    name: label,
    condition: z.enum(["parked-idle", "parked-raised-idle", "road-steady", "road-mixed"]),
    airSource: z.enum(["recirculation", "outside", "unknown"]),
    blower: z.enum(["low", "medium", "high", "unknown"]),
    charged: substance,
    trace: id.optional(),
    /** Interval of the trace that is this run, as the file's own clock tells it. */
    from: z.iso.datetime({ local: true, offset: true }).optional(),
    to: z.iso.datetime({ local: true, offset: true }).optional(),
    note: text(500).optional(),
  }),
  "trace-imported": z.strictObject({
    ...where,
    fileName: text(200).min(1),
    kind: z.enum(["run", "hold"]),
    /** The file as it came, so that nothing is dropped and a sceptic can read it again. */
    content: z.string().max(4_000_000),
    mapping: z.strictObject({
      decimal: z.enum([".", ","]),
      time: z.strictObject({
        column: text(120),
        /** Clock time of day-first or ISO form, or elapsed time in a unit. */
        form: z.enum(["iso", "day-first", "month-first", "elapsed"]),
        unit: text(24).optional(),
      }),
      columns: z
        .array(
          z.strictObject({
            column: text(120),
            quantity: z.enum(readingQuantities),
            unit: text(24).min(1),
            instrument: id.optional(),
          }),
        )
        .min(1)
        .max(60),
    }),
  }),
  /** What a detector or an identifier said about the contents of a vessel. */
  "sample-tested": z
    .strictObject({
      ...where,
      vessel: vessel.optional(),
      method: z.enum(["identifier", "combustible-gas-detector", "halogen-detector"]),
      /** A detector's answer. */
      responded: z.boolean().optional(),
      /** An identifier's percentages by mass: fluid ids, `hydrocarbons` or `air`. */
      parts: z
        .array(z.strictObject({ substance: text(24).min(1), percent: z.number().min(0).max(100) }))
        .min(1)
        .max(12)
        .optional(),
      instrument: id.optional(),
      note: text(500).optional(),
    })
    .refine((body) => (body.method === "identifier") === (body.parts !== undefined), {
      error: "an identifier gives percentages; a detector gives a yes or a no",
    })
    .refine((body) => (body.method === "identifier") === (body.responded === undefined), {
      error: "a detector gives a yes or a no; an identifier gives percentages",
    }),
  /** Instruments that will send samples as they read: what each value of a sample is. */
  "stream-opened": z.strictObject({
    ...where,
    name: label,
    columns: z
      .array(
        z.strictObject({
          column: text(120).min(1),
          quantity: z.enum(readingQuantities),
          unit: text(24).min(1),
          instrument: id.optional(),
        }),
      )
      .min(1)
      .max(60),
  }),
  /** A batch of samples: one value a column of the stream, null where an instrument said nothing. */
  "samples-received": z.strictObject({
    stream: id,
    samples: z
      .array(z.strictObject({ at: instant, values: z.array(z.number().nullable()).min(1).max(60) }))
      .min(1)
      .max(2000),
  }),
  /** How a person reads a sentence of a label, instead of the rules on its words. */
  "claim-read": z.strictObject({
    product: id,
    /** The sentence as the product lists it. */
    text: text(300).min(1),
    kind: z.enum(claimKinds),
    mass: quantitySchema.optional(),
    equals: quantitySchema.optional(),
    of: text(24).optional(),
    pure: z.boolean().optional(),
    /** Global warming potential that is not to be passed, kg/kg. */
    limit: z.number().nonnegative().max(1e5).optional(),
  }),
  "item-confirmed": z.strictObject({ ...where, item: label, confirmed: z.boolean() }),
  "note-written": z.strictObject({ ...where, text: text(4000).min(1) }),
  /** Names or words of this log stand in for those of another, whose seal it names. */
  "log-redacted": z.strictObject({
    hidden: z.array(z.enum(["devices", "places", "vehicle", "instruments", "notes", "files"])),
    /** How many chosen words were replaced. */
    words: z.int().nonnegative(),
    entries: z.int().nonnegative(),
    originalSeal: z.string().regex(/^[0-9a-f]{64}$/),
  }),
  "entry-corrected": z.strictObject({
    target: id,
    /** The whole new body, valid for the target's type. */
    body: z.record(z.string(), z.unknown()),
    reason: text(500).min(1),
    /** Earlier corrections that were before the corrector's eyes; others were made independently. */
    supersedes: z.array(id).max(50).optional(),
  }),
  "entry-withdrawn": z.strictObject({ target: id, reason: text(500).min(1) }),
} as const;

export type EventType = keyof typeof bodySchemas;
export type BodyOf<T extends EventType> = z.infer<(typeof bodySchemas)[T]>;

/** One line of the log. `at` is when it was made on `device`; a body's `when` is when it happened. */
export interface EventOf<T extends EventType> {
  readonly id: string;
  readonly trial: string;
  readonly at: string;
  readonly device: string;
  readonly type: T;
  readonly v: 1;
  readonly body: BodyOf<T>;
}
export type TrialEvent = { [T in EventType]: EventOf<T> }[EventType];

export const envelopeSchema = z.strictObject({
  id: z.uuidv7(),
  trial: z.uuid(),
  at: z.iso.datetime(),
  device: text(80).min(1),
  type: z.enum(Object.keys(bodySchemas) as [EventType, ...EventType[]]),
  v: z.literal(1),
  body: z.record(z.string(), z.unknown()),
});
