import { amendments, type Amendments } from "./amendments.ts";
import type { BodyOf } from "./events.ts";
import { canonicalText, inOrder, sorted } from "./order.ts";
import { freshMemory, type Memory, rememberedBody } from "./memory.ts";
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

/** One event an id. Two different contents under one id are both kept: one speaks, the other is shown. */
function distinct(events: readonly StoredEvent[], refused: Refused[]): StoredEvent[] {
  const byId = new Map<string, StoredEvent[]>();
  for (const event of events) {
    const same = byId.get(event.id) ?? [];
    if (!same.includes(event)) byId.set(event.id, [...same, event]);
  }
  return [...byId.values()].flatMap((same) => {
    if (same.length === 1) return same;
    const contents = new Map(same.map((event) => [canonicalText(event), event]));
    const [first, ...others] = [...contents.keys()].sort();
    for (const text of others) {
      const event = contents.get(text);
      if (event) refused.push(refusal(event, "same-id-other-content"));
    }
    const speaker = first === undefined ? undefined : contents.get(first);
    return speaker ? [speaker] : [];
  });
}

const refusal = (event: StoredEvent, reason: Refused["reason"]): Refused => ({
  id: event.id,
  type: event.type,
  reason,
  issues: [],
});

/** The trial is the one that the earliest opening names, else that of the earliest event. */
function trialOf(events: readonly StoredEvent[]): string | undefined {
  const byAt = [...events].sort((a, b) => inOrder(stampedAt(a), stampedAt(b)));
  return (byAt.find(({ type }) => type === "trial-opened") ?? byAt[0])?.trial;
}

const isEntryType = (type: StoredEvent["type"]): type is EntryType =>
  type !== "entry-corrected" && type !== "entry-withdrawn";

/** The entry before anybody amended it, or the reason why its body says nothing. */
function plainEntry<T extends EntryType>(
  event: StoredEvent,
  type: T,
  memory: Memory,
): EntryOf<T> | Refused {
  const parsed = rememberedBody(memory, event, type);
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
    corrections: [],
    conflict: [],
  };
}

function whenOf(body: object, at: string): string {
  return "when" in body && typeof body.when === "string" ? body.when : at;
}

function amended<T extends EntryType>(entry: EntryOf<T>, amends: Amendments): EntryOf<T> {
  const history = amends.ofEntry(entry.id);
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
  const unique = distinct(events, refused);
  const trial = trialOf(unique);
  const plain = new Map<string, EntryOf<EntryType>>();
  const amending: StoredEvent[] = [];
  for (const event of unique) {
    if (event.trial !== trial) {
      refused.push(refusal(event, "other-trial"));
    } else if (isEntryType(event.type)) {
      const entry = plainEntry(event, event.type, memory);
      if ("reason" in entry) refused.push(entry);
      else plain.set(entry.id, entry);
    } else {
      amending.push(event);
    }
  }
  const types = new Map([...plain.values()].map(({ id, type }) => [id, type]));
  const amends = amendments(amending, types);
  const entries = [...plain.values()].map((entry) => amended(entry, amends) as Entry);
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
