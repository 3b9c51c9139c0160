import type { BodyOf, EventType, TrialEvent } from "../events.ts";
import { inWrittenOrder } from "../export.ts";
import { readClaim } from "../findings/claims/read-claim.ts";
import { readPrice } from "../findings/claims/price.ts";
import { logSeal } from "../integrity.ts";
import { canonicalText } from "../order.ts";
import { parseEvent } from "../parse.ts";
import { readTrace } from "../traces/read.ts";
import type { StoredEvent } from "../view.ts";
import { entryId, otherIds, withIds } from "./other-ids.ts";
import { type Replacement, Replacer } from "./replaced.ts";
import { freeTexts, type Hidable, hidables, type TextKind, withText } from "./texts.ts";

export interface RedactionChoices {
  readonly hide: readonly Hidable[];
  /** Replaced wherever they stand in a free text, in any case of letters; three letters or more. */
  readonly words: readonly string[];
}

export interface Redacted {
  readonly events: readonly TrialEvent[];
  /** What was replaced by what, most of it names. */
  readonly replaced: readonly Replacement[];
  /** Where a chosen word had to stay, since a figure or a verdict is read from it: words and place. */
  readonly kept: readonly { readonly word: string; readonly where: string }[];
}

/** What a pass over a log needs to know. */
interface Pass {
  readonly hide: ReadonlySet<Hidable>;
  readonly replacer: Replacer;
  readonly types: ReadonlyMap<string, EventType>;
  readonly keep: (words: readonly string[], where: string) => void;
}

/**
 * The same trial with names, places, notes and chosen words replaced: another log, with ids and a seal of its own, whose
 * figures are the same. An entry at its end says what was hidden and which seal the original has.
 *
 * @param events  Of one trial, at least one; what cannot be used has to be left out before.
 * @throws        RangeError for no events or an event that is not in order: the caller's bug.
 */
export function redacted(
  events: readonly StoredEvent[],
  { hide, words }: RedactionChoices,
): Redacted {
  const replacer = new Replacer(words);
  const kept = new Map<string, { word: string; where: string }>();
  const ordered = inWrittenOrder(events).map(({ event }) => event);
  const pass: Pass = {
    hide: new Set(hide),
    replacer,
    types: new Map(ordered.map(({ id, type }) => [id, type])),
    keep: (found, where) => {
      for (const word of found) kept.set(`${word} ${where}`, { word, where });
    },
  };
  const seal = logSeal(ordered);
  const chosen = canonicalText({ hide: [...hide].sort(), words: [...words].sort() });
  const ids = otherIds(ordered, `${seal}\n${chosen}`);
  const changed = ordered.map((event) => ({
    ...event,
    id: ids.get(event.id) ?? event.id,
    trial: ids.get(event.trial) ?? event.trial,
    device: deviceName(event.device, pass),
    body: withIds(bodyOf(event.type, event.body, pass), ids),
  }));
  const last = changed.at(-1);
  if (last === undefined) throw new RangeError("a log to redact has entries");
  const note = redactionNote(last, logSeal(changed), {
    hidden: hidables.filter((one) => pass.hide.has(one)),
    words: replacer.list.filter(({ what }) => what === "words").length,
    entries: changed.length,
    originalSeal: seal,
  });
  return {
    events: [...changed, note].map(inOrder),
    replaced: replacer.list,
    kept: [...kept.values()],
  };
}

function inOrder(event: unknown): TrialEvent {
  const parsed = parseEvent(event);
  if (parsed.kind === "event") return parsed.event;
  throw new RangeError(`an event to redact is in order: ${JSON.stringify(parsed.issues[0])}`);
}

/** The last entry of the new log, at the moment of the last one before it: no clock is asked. */
const redactionNote = (last: StoredEvent, seal: string, body: BodyOf<"log-redacted">) => ({
  ...last,
  id: entryId(last.id, 0xffffffff, seal),
  device: "redaction",
  type: "log-redacted" as const,
  body,
});

/** Two devices stay two: who corrected whose entry hangs on it. */
function deviceName(device: string, { hide, replacer }: Pass): string {
  const hits = replacer.hits(device);
  if (hits.length > 0) replacer.wordless(device);
  return hide.has("devices") || hits.length > 0 ? replacer.named("devices", device) : device;
}

function bodyOf(type: EventType, body: unknown, pass: Pass): unknown {
  if (type === "trace-imported") return traceBody(body as BodyOf<"trace-imported">, pass);
  const own = textsOf(type, body, pass);
  if (type !== "entry-corrected") return own;
  const { target, body: inner } = own as BodyOf<"entry-corrected">;
  const targeted = pass.types.get(target);
  return targeted === undefined ? own : { ...(own as object), body: bodyOf(targeted, inner, pass) };
}

const textsOf = (type: EventType, body: unknown, pass: Pass): unknown =>
  Object.entries(freeTexts[type]).reduce(
    (left, [path, kind]) => withText(left, path.split("."), (text) => changed(text, kind, pass)),
    body,
  );

function changed(text: string, kind: TextKind, pass: Pass): string {
  const { hide, replacer } = pass;
  switch (kind) {
    case "notes":
      return hide.has(kind) ? replacer.removed(text) : replacer.wordless(text);
    case "places":
    case "vehicle":
    case "instruments":
    case "files":
      return hide.has(kind) ? replacer.named(kind, text) : replacer.wordless(text);
    case "claim":
      return unlessRead(text, pass, { where: "a claim", read: readClaim });
    case "price":
      return unlessRead(text, pass, { where: "a price", read: readPrice });
    case "words":
    case "table":
    case "column":
      return replacer.wordless(text);
  }
}

/** Without the chosen words, unless the text would then be read as something else. */
function unlessRead(
  text: string,
  { replacer, keep }: Pass,
  { where, read }: { readonly where: string; readonly read: (text: string) => unknown },
): string {
  const hits = replacer.hits(text);
  if (hits.length === 0) return text;
  const trial = new Replacer(hits).wordless(text);
  if (canonicalText(read(trial)) === canonicalText(read(text))) return replacer.wordless(text);
  keep(hits, where);
  return text;
}

/** A logger's file with its headings; as it was, where it would be read otherwise. */
function traceBody(body: BodyOf<"trace-imported">, pass: Pass): unknown {
  const texts = [
    body.content,
    body.mapping.time.column,
    ...body.mapping.columns.map(({ column }) => column),
  ];
  const hits = [...new Set(texts.flatMap(pass.replacer.hits))];
  const dry = { ...pass, replacer: new Replacer(hits) };
  const tried = textsOf("trace-imported", body, dry) as BodyOf<"trace-imported">;
  if (hits.length === 0 || sameFigures(body, tried)) return textsOf("trace-imported", body, pass);
  pass.keep(hits, `the logger file ${body.fileName}`);
  return { ...body, fileName: changed(body.fileName, "files", pass) };
}

/** Air of the standard atmosphere, Pa: both are read with the same. */
const AIR = 101325;

function sameFigures(a: BodyOf<"trace-imported">, b: BodyOf<"trace-imported">): boolean {
  const [before, after] = [a, b].map(({ content, mapping }) => {
    const { series, problems } = readTrace(content, mapping, AIR);
    return JSON.stringify([
      series.map(({ quantity, t, values }) => [quantity, [...t], [...values]]),
      problems.map(({ kind, line }) => [kind, line]),
    ]);
  });
  return before === after;
}
