import { amendments, type Amendments } from "./amendments.ts";
import type { BodyOf } from "./events.ts";
import { canonicalText, inOrder, sorted } from "./order.ts";
import { parseBody } from "./parse.ts";
import { freshMemory, type Memory, type PlainEntry, rememberedBody } from "./memory.ts";
import type { Entry, EntryOf, EntryType, Refused, StoredEvent } from "./view.ts";

/**
 * Turns a set of events into statements with their histories. A log is a set: order of arrival,
 * repeats and late deliveries cannot matter, because everything below sorts first.
 */
export interface Folded {
  readonly trial?: string;
  readonly entries: readonly Entry[];
  readonly refused: readonly Refused[];
}

const stampedAt = (event: StoredEvent) => ({ id: event.id, when: event.at });

/**
 * One event an id. Of two different contents under one id a sound one speaks before an unsound one,
 * then the first in canonical text; the others are shown as refused.
 */
function distinct(
  events: readonly StoredEvent[],
  refused: Refused[],
  memory: Memory,
): readonly StoredEvent[] {
  // Made one after the other on one device: no id can come twice.
  if (events.every(({ id }, i) => i === 0 || (events[i - 1]?.id ?? id) < id)) return events;
  const byId = new Map<string, StoredEvent>();
  const several = new Map<string, Set<StoredEvent>>();
  for (const event of events) {
    const first = byId.get(event.id);
    if (first === undefined) byId.set(event.id, event);
    else if (first !== event) {
      const same = several.get(event.id) ?? new Set([first]);
      several.set(event.id, same.add(event));
    }
  }
  for (const [id, same] of several) byId.set(id, speakerOf(same, refused, memory));
  return [...byId.values()];
}

/** Of events under one id: the one that counts; the others are refused. */
function speakerOf(
  same: ReadonlySet<StoredEvent>,
  refused: Refused[],
  memory: Memory,
): StoredEvent {
  const contents = new Map([...same].map((event) => [rankText(event, memory), event]));
  const ranked = [...contents].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, event]) => event);
  const [speaker, ...others] = ranked as [StoredEvent, ...StoredEvent[]];
  for (const event of others) refused.push(refusal(event, "same-id-other-content"));
  return speaker;
}

const rankText = (event: StoredEvent, memory: Memory): string =>
  `${rememberedBody(memory, event, event.type).kind === "valid" ? 0 : 1}${canonicalText(event)}`;

const refusal = (event: StoredEvent, reason: Refused["reason"]): Refused => ({
  id: event.id,
  type: event.type,
  reason,
  issues: [],
});

/** The trial is the one that the earliest opening names, else that of the earliest event. */
function trialOf(events: readonly StoredEvent[]): string | undefined {
  const openings = events.filter(({ type }) => type === "trial-opened");
  return earliest(openings.length > 0 ? openings : events)?.trial;
}

function earliest([first, ...rest]: readonly StoredEvent[]): StoredEvent | undefined {
  let found = first;
  for (const event of rest) {
    if (found && inOrder(stampedAt(event), stampedAt(found)) < 0) found = event;
  }
  return found;
}

const isEntryType = (type: StoredEvent["type"]): type is EntryType =>
  type !== "entry-corrected" && type !== "entry-withdrawn";

/** `plainEntry` of each event; of those that the last log began with too, as it was. */
function plainEntries(events: readonly StoredEvent[], memory: Memory): readonly PlainEntry[] {
  const { last } = memory;
  const plain = events.map((event, i) => {
    if (last.events[i] === event) return last.plain[i];
    return isEntryType(event.type) ? plainEntry(event, event.type) : undefined;
  });
  // A copy: the caller may push into its own.
  memory.last = { events: [...events], plain };
  return plain;
}

/** One for all: most entries of a long log were never amended. */
const none: readonly never[] = [];

/** The entry before anybody amended it, or the reason why its body says nothing. */
function plainEntry<T extends EntryType>(event: StoredEvent, type: T): EntryOf<T> | Refused {
  const parsed = parseBody(type, event.body);
  if (parsed.kind === "invalid") {
    return { ...refusal(event, "bad-body"), issues: parsed.issues };
  }
  return {
    id: event.id,
    type,
    at: event.at,
    device: event.device,
    when: whenOf(parsed.value, event.at),
    body: parsed.value,
    original: parsed.value,
    corrections: none,
    conflict: none,
  };
}

function whenOf(body: object, at: string): string {
  return "when" in body && typeof body.when === "string" ? body.when : at;
}

function amended<T extends EntryType>(entry: EntryOf<T>, amends: Amendments): EntryOf<T> {
  const history = amends.ofEntry(entry.id);
  if (!history) return entry;
  const body = (history.effective as BodyOf<T> | undefined) ?? entry.body;
  return {
    ...entry,
    body,
    when: whenOf(body, entry.at),
    corrections: history.corrections,
    conflict: history.conflict,
    ...(history.withdrawn && { withdrawn: history.withdrawn }),
  };
}

/** See the head of the file. Never throws for any set of events with sound envelopes. */
export function fold(events: readonly StoredEvent[], memory: Memory = freshMemory()): Folded {
  const refused: Refused[] = [];
  const unique = distinct(events, refused, memory);
  const trial = trialOf(unique);
  const plain: EntryOf<EntryType>[] = [];
  const amending: StoredEvent[] = [];
  const said = plainEntries(unique, memory);
  for (const [i, event] of unique.entries()) {
    const entry = said[i];
    if (event.trial !== trial) refused.push(refusal(event, "other-trial"));
    else if (entry === undefined) amending.push(event);
    else if ("reason" in entry) refused.push(entry);
    else plain.push(entry);
  }
  const amends = amendments(amending, () => new Map(plain.map(({ id, type }) => [id, type])));
  const entries = (
    amending.length === 0 ? plain : plain.map((entry) => amended(entry, amends))
  ) as Entry[];
  return {
    ...(trial !== undefined && { trial }),
    entries: sorted(entries),
    refused: [...refused, ...amends.refused].sort(byIdAndReason),
  };
}

const byIdAndReason = (a: Refused, b: Refused): number => {
  const [x, y] = [`${a.id} ${a.reason}`, `${b.id} ${b.reason}`];
  return x < y ? -1 : x > y ? 1 : 0;
};
