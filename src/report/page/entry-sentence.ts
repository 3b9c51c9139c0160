import { type BodyOf, type Entry, type EntryType } from "../../trial/index.ts";
import { formatQuantity, isUnitId, type Quantity, THIN_SPACE } from "../../units/index.ts";
import {
  claimKindNames,
  conditionNames,
  readingName,
  testerAnswer,
  testerNames,
} from "../names.ts";
import { redactionSentence } from "../redaction-words.ts";
import { instrumentName, type Page, productName, substanceName, vesselName } from "./context.ts";

/** A quantity as it was typed, whatever its unit. */
export const typedText = (quantity: Quantity): string =>
  isUnitId(quantity.unit)
    ? formatQuantity(quantity)
    : `${quantity.value}${THIN_SPACE}${quantity.unit}`;

const joined = (...parts: readonly (string | undefined)[]): string =>
  parts.filter((part) => part !== undefined && part !== "").join("; ");

type Sentences = { readonly [T in EntryType]: (body: BodyOf<T>, page: Page) => string };

const sentences: Sentences = {
  "trial-opened": ({ title }) => `Trial opened: ${title}`,
  "vehicle-described": ({ name, labelRefrigerant, labelCharge }) =>
    `Vehicle described: ${name}, label ${labelRefrigerant}, ${typedText(labelCharge)}`,
  "instrument-listed": ({ name }) => `Instrument listed: ${name}`,
  "product-listed": ({ name }) => `Product listed: ${name}`,
  "vessel-listed": ({ name, holds }) =>
    joined(`Vessel listed: ${name}`, holds && `holds ${typedText(holds.mass)}, ${holds.basis}`),
  "reading-taken": ({ quantity, form, value, place, note, vessel }, page) =>
    joined(
      `${readingName(quantity, form)}: ${typedText(value)}`,
      vessel !== undefined ? vesselName(page, vessel) : undefined,
      place,
      note,
    ),
  "transfer-posted": transferSentence,
  "vessel-found-empty": ({ vessel, evidence }, page) =>
    `Found empty: ${vesselName(page, vessel)}; ${evidence}`,
  "run-recorded": (body, page) =>
    joined(
      `Run recorded: ${body.name}`,
      conditionNames[body.condition],
      `charged with ${substanceName(page, body.charged)}`,
      body.note,
    ),
  "trace-imported": ({ fileName }) => `Logger file imported: ${fileName}`,
  "stream-opened": ({ name }) => `Instruments stream: ${name}`,
  "samples-received": ({ samples }) => `Samples from a stream: ${samples.length}`,
  "sample-tested": (body, page) =>
    joined(
      `${testerNames[body.method]}: ${testerAnswer(body)}`,
      body.vessel !== undefined ? vesselName(page, body.vessel) : undefined,
      body.note,
    ),
  "claim-read": ({ product, text, kind }, page) =>
    `How a claim is read, ${productName(page, product)}: “${text}” as ${claimKindNames[kind]}`,
  "item-confirmed": ({ item, confirmed }, { view }) => {
    const text = view.stages
      .flatMap(({ requirements }) => requirements)
      .find(({ id }) => id === item)?.statement;
    return `${confirmed ? "Confirmed" : "Confirmation taken back"}: ${text ?? item}`;
  },
  "note-written": ({ text }) => `Note: ${text}`,
  "log-redacted": redactionSentence,
};

function transferSentence(body: BodyOf<"transfer-posted">, page: Page): string {
  const weighed = (side: string, weighing: typeof body.sourceWeighing): string | undefined =>
    weighing &&
    `${side} ${typedText(weighing.before)} → ${typedText(weighing.after)} on ${instrumentName(page, weighing.instrument)}`;
  const { stated, purged } = body;
  return joined(
    `Moved from ${vesselName(page, body.from)} to ${vesselName(page, body.to)}`,
    weighed("source", body.sourceWeighing),
    weighed("destination", body.destinationWeighing),
    stated && `stated ${typedText(stated.mass)} ± ${typedText(stated.limit)}`,
    purged && `purged ${typedText(purged.mass)} ± ${typedText(purged.limit)}`,
    body.phase !== undefined && body.phase !== "unknown" ? body.phase : undefined,
    body.note,
  );
}

/** One statement of the log in a sentence, as it holds now. */
export const entrySentence = (entry: Entry, page: Page): string =>
  bodySentence(entry.type, entry.body, page);

/** The statement as it was first made. */
export const originalSentence = (entry: Entry, page: Page): string =>
  bodySentence(entry.type, entry.original, page);

function bodySentence<T extends EntryType>(type: T, body: BodyOf<T>, page: Page): string {
  return sentences[type](body, page);
}
