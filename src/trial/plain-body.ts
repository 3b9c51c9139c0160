import { type EventType, type ReadingQuantity, readingForms, readingQuantities } from "./events.ts";
import { stages } from "./events.ts";

/**
 * Says of the two bodies that come by the hundred thousand, when they are written in their plainest
 * form, that their schema takes them as they are. Anything else is left to the schema, which alone says
 * what is wrong. It never takes what the schema would refuse or change: parse.property.test.ts.
 */
export function isPlainBody(type: EventType, body: unknown): boolean {
  if (typeof body !== "object" || body === null) return false;
  if (type === "samples-received") return isPlainBatch(body);
  return type === "reading-taken" && isPlainReading(body);
}

const id = /^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
/** Days that every month has: the schema knows the others. */
const instant =
  /^20\d\d-(?:0[1-9]|1[0-2])-(?:0[1-9]|1\d|2[0-8])T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d(?:\.\d{1,9})?Z$/;

const isId = (value: unknown): boolean => typeof value === "string" && id.test(value);
const isInstant = (value: unknown): boolean => typeof value === "string" && instant.test(value);

/** Every own field is one of a table and passes its check, and none of those that must be there lacks. */
function fits(
  value: unknown,
  fields: Readonly<Record<string, (value: unknown) => boolean>>,
  needed: number,
): boolean {
  if (typeof value !== "object" || value === null) return false;
  if (Object.getPrototypeOf(value) !== Object.prototype) return false;
  let found = 0;
  for (const key in value) {
    const check = Object.hasOwn(fields, key) ? fields[key] : undefined;
    if (check?.((value as Record<string, unknown>)[key]) !== true) return false;
    found++;
  }
  return found >= needed;
}

const isNumberOrNull = (value: unknown): boolean => value === null || Number.isFinite(value);
const isValues = (value: unknown): boolean =>
  Array.isArray(value) && value.length > 0 && value.length <= 60 && value.every(isNumberOrNull);
const sample = { at: isInstant, values: isValues };
const isSample = (value: unknown): boolean => fits(value, sample, 2);
const batch = {
  stream: isId,
  samples: (value: unknown): boolean =>
    Array.isArray(value) && value.length > 0 && value.length <= 2000 && value.every(isSample),
};
const isPlainBatch = (body: unknown): boolean => fits(body, batch, 2);

const stageSet: ReadonlySet<unknown> = new Set(stages);
const quantitySet: ReadonlySet<unknown> = new Set<ReadingQuantity>(readingQuantities);
const formSet: ReadonlySet<unknown> = new Set(readingForms);
const unit = /^[A-Za-z%°"][A-Za-z0-9%°/()"·]{0,15}$/u;

const quantity = {
  value: Number.isFinite,
  unit: (value: unknown): boolean => typeof value === "string" && unit.test(value),
};
/** Texts are left to the schema, which trims them. */
const reading = {
  stage: (value: unknown) => stageSet.has(value),
  quantity: (value: unknown) => quantitySet.has(value),
  form: (value: unknown) => formSet.has(value),
  value: (value: unknown) => fits(value, quantity, 2),
  round: isId,
  when: isInstant,
  instrument: isId,
  run: isId,
};

function isPlainReading(body: object): boolean {
  const isWhole = "stage" in body && "quantity" in body && "form" in body && "value" in body;
  return isWhole && fits(body, reading, 4);
}
