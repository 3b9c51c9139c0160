import {
  claimKindNames,
  conditionNames,
  readingName,
  stageNames,
  redactionSentence,
  testerAnswer,
  testerNames,
} from "../../report/index.ts";
import {
  type BodyOf,
  type Entry,
  lostAccount,
  quantityWords,
  type TrialView,
  vehicleAccount,
} from "../../trial/index.ts";
import { formatQuantity } from "../../units/index.ts";
import { accuracyWords } from "../plan/accuracy-words.ts";

/** What an entry says, in one line; `body` may be the one that holds, or the first. */
export interface EntryWords {
  readonly what: string;
  readonly says: string;
}

const nameIn = (view: TrialView, id: string): string => {
  if (id === vehicleAccount) return view.vehicle?.name ?? "the vehicle";
  if (id === lostAccount) return "lost";
  return view.vessels.find((vessel) => vessel.id === id)?.name ?? "a vessel";
};

/** Stage and round an entry belongs to, for its small print. */
export function entryPlace(view: TrialView, entry: Entry): string {
  if (!("stage" in entry.body)) return "Plan";
  const { stage, round } = entry.body;
  const product = view.products.find(({ id }) => id === round);
  return product ? `${stageNames[stage]}, ${product.name}` : stageNames[stage];
}

/** What was confirmed, in the words that were confirmed. */
const statementOf = (view: TrialView, { stage, round, item }: BodyOf<"item-confirmed">): string =>
  view.stages
    .find((one) => one.stage === stage && one.round === round)
    ?.requirements.find(({ id }) => id === item)?.statement ?? item.replaceAll("-", " ");

export function entryWords(view: TrialView, entry: Entry): EntryWords {
  switch (entry.type) {
    case "trial-opened":
      return { what: "Question", says: entry.body.question };
    case "vehicle-described":
      return {
        what: "Vehicle",
        says: `${entry.body.name}, ${entry.body.labelRefrigerant} ${formatQuantity(entry.body.labelCharge)}`,
      };
    case "instrument-listed":
      return {
        what: "Instrument",
        says: `${entry.body.name}, ${accuracyWords(entry.body.accuracy)}`,
      };
    case "product-listed":
      return { what: "Product", says: entry.body.name };
    case "vessel-listed":
      return {
        what: "Vessel",
        says: `${entry.body.name}${entry.body.tare ? `, tare ${formatQuantity(entry.body.tare)}` : ""}`,
      };
    case "reading-taken":
      return {
        what: readingName(entry.body.quantity, entry.body.form),
        says: formatQuantity(entry.body.value),
      };
    case "transfer-posted":
      return { what: "Transfer", says: transferWords(view, entry) };
    case "vessel-found-empty":
      return {
        what: "Found empty",
        says: `${nameIn(view, entry.body.vessel)}: ${entry.body.evidence}`,
      };
    case "run-recorded":
      return { what: "Run", says: `${entry.body.name}, ${conditionNames[entry.body.condition]}` };
    case "trace-imported":
      return {
        what: entry.body.kind === "hold" ? "Hold trace" : "Logger file",
        says: `${entry.body.fileName}: ${entry.body.mapping.columns.map(({ quantity }) => quantityWords(quantity)).join(", ")}`,
      };
    case "stream-opened":
      return {
        what: "Stream of instruments",
        says: `${entry.body.name}: ${entry.body.columns.map(({ quantity }) => quantityWords(quantity)).join(", ")}`,
      };
    case "samples-received":
      return { what: "Samples", says: `${entry.body.samples.length} of a stream` };
    case "sample-tested":
      return { what: testerNames[entry.body.method], says: testerAnswer(entry.body) };
    case "claim-read":
      return {
        what: "How a claim is read",
        says: `“${entry.body.text}” as ${claimKindNames[entry.body.kind]}`,
      };
    case "item-confirmed":
      return { what: "Confirmed", says: statementOf(view, entry.body) };
    case "note-written":
      return { what: "Note", says: entry.body.text };
    case "log-redacted":
      return { what: "Redaction", says: redactionSentence(entry.body) };
  }
}

function transferWords(
  view: TrialView,
  { body }: Extract<Entry, { type: "transfer-posted" }>,
): string {
  const scale = [body.sourceWeighing, body.destinationWeighing].flatMap((one) =>
    one ? [`${formatQuantity(one.before)} → ${formatQuantity(one.after)}`] : [],
  );
  const stated = body.stated ? [`about ${formatQuantity(body.stated.mass)}`] : [];
  return `${nameIn(view, body.from)} to ${nameIn(view, body.to)}: ${[...scale, ...stated].join("; ")}`;
}
