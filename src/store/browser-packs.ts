import type { StoredEvent } from "../trial/index.ts";
import { type AnyTx, type LogTx, span, type TrialRow } from "./browser-tables.ts";
import type { StoredLog } from "./port.ts";

/**
 * A trial's log in the browser: packs of many events as one text each, then the newest events one by one.
 * A row of its own for each of 200,000 events took ten seconds to read.
 */

/** A pack is full at so many events or characters. */
const fullEvents = 500;
const fullCharacters = 400_000;
/** So many newest events stand one by one before they are packed. */
const mostSingle = 500;
/** From so many together on, events are packed at once. */
const together = 50;
/** Beyond this an older version left them: `tidy` packs them in pieces, so that no entry waits for it. */
const mostPackedAtOnce = 1_000;
/** Packs that are asked for at a time: the next come while these are parsed. */
const asked = 20;

// Only this file writes these texts, from events that a door parsed.
const eventsIn = (pack: { readonly text: string }) => JSON.parse(pack.text) as StoredEvent[];

/** The events of a trial after a cursor. */
export async function readLog(tx: AnyTx, trial: string, after: number): Promise<StoredLog> {
  const events: StoredEvent[] = [];
  for await (const { first, text } of packsAfter(tx, trial, after)) {
    const packed = eventsIn({ text });
    const skipped = Math.max(0, after + 1 - first);
    for (let i = skipped; i < packed.length; i++) events.push(packed[i] as StoredEvent);
  }
  const singles = tx.objectStore("events").index("by-trial");
  for (const { event } of await singles.getAll(span(trial, after))) events.push(event);
  // Numbers have no gaps.
  return { events, cursor: after + events.length };
}

async function* packsAfter(tx: AnyTx, trial: string, after: number) {
  const ask = (from: number) => tx.objectStore("packs").getAll(span(trial, from), asked);
  let packs = await ask(after);
  for (let last = packs.at(-1); last !== undefined; last = packs.at(-1)) {
    const next = packs.length < asked ? Promise.resolve([]) : ask(last.last);
    yield* packs;
    packs = await next;
  }
}

/** The stored events of these ids, by id; ids that are not here are left out. */
export async function stored(
  tx: AnyTx,
  ids: readonly string[],
): Promise<ReadonlyMap<string, StoredEvent>> {
  const found = new Map<string, StoredEvent>();
  if (ids.length === 0) return found;
  const sorted = [...ids].sort();
  const range = IDBKeyRange.bound(sorted[0], sorted.at(-1));
  const singles = tx.objectStore("events");
  const places = tx.objectStore("packed").index("by-id");
  // Ids are by time: of a trial that is new here, mostly none is between the first and the last.
  const [single, packed] = await Promise.all([singles.getKey(range), places.getKey(range)]);
  if (single !== undefined) {
    // Asked for together: one after the other a long log would take minutes.
    for (const row of await Promise.all(ids.map((id) => singles.get(id)))) {
      if (row) found.set(row.id, row.event);
    }
  }
  if (packed !== undefined) await findPacked(tx, ids, found);
  return found;
}

async function findPacked(tx: AnyTx, ids: readonly string[], found: Map<string, StoredEvent>) {
  const places = tx.objectStore("packed").index("by-id");
  const wanted = ids.filter((id) => !found.has(id));
  const keys = await Promise.all(wanted.map((id) => places.getKey(id)));
  const present = new Set(wanted.filter((_, i) => keys[i] !== undefined));
  const packs = new Map(keys.flatMap((key) => (key ? [[key.join(" "), key] as const] : [])));
  for (const key of packs.values()) {
    const pack = await tx.objectStore("packs").get(key);
    for (const event of pack ? eventsIn(pack) : []) {
      if (present.has(event.id)) found.set(event.id, event);
    }
  }
}

/** The events of these places, in their order; places by trial and number. */
export async function eventsAt(
  tx: AnyTx,
  places: readonly { readonly trial: string; readonly seq: number; readonly id: string }[],
): Promise<StoredEvent[]> {
  const singles = await Promise.all(places.map(({ id }) => tx.objectStore("events").get(id)));
  const events: StoredEvent[] = [];
  let pack = { trial: "", first: 0, events: [] as StoredEvent[] };
  for (const [i, { trial, seq }] of places.entries()) {
    const single = singles[i];
    if (single === undefined && (pack.trial !== trial || seq >= pack.first + pack.events.length)) {
      const [next] = await tx.objectStore("packs").getAll(span(trial, seq - 1), 1);
      if (next) pack = { trial, first: next.first, events: eventsIn(next) };
    }
    const event = single?.event ?? pack.events[seq - pack.first];
    if (event) events.push(event);
  }
  return events;
}

/** Ids of all events of a trial with their numbers. */
export async function numbered(
  tx: AnyTx,
  trial: string,
): Promise<{ readonly id: string; readonly seq: number }[]> {
  const [packs, singles] = await Promise.all([
    tx.objectStore("packed").getAll(span(trial, 0)),
    tx.objectStore("events").index("by-trial").getAll(span(trial, 0)),
  ]);
  const inPacks = packs.flatMap(({ ids, last }) =>
    ids.map((id, i) => ({ id, seq: last - ids.length + 1 + i })),
  );
  return [...inPacks, ...singles.map(({ id, seq }) => ({ id, seq }))];
}

/** Adds events behind a trial's others, in its row's name; returns the row as it has to be written. */
export async function addTo(
  tx: LogTx<"readwrite">,
  row: TrialRow,
  fresh: readonly StoredEvent[],
): Promise<TrialRow> {
  const single = row.seq - (row.packed ?? 0);
  const isDue = fresh.length >= together || single + fresh.length > mostSingle;
  if (isDue && single <= mostPackedAtOnce) return pack(tx, row, { fresh });
  const { trial, seq } = row;
  const rows = fresh.map((event, i) => ({ id: event.id, trial, seq: seq + 1 + i, event }));
  await Promise.all(rows.map((one) => tx.objectStore("events").add(one)));
  return { ...row, seq: seq + fresh.length };
}

/** Packs the oldest single events of a trial that has too many; undefined when it has not. */
export function packOldest(tx: LogTx<"readwrite">, row: TrialRow): Promise<TrialRow> | undefined {
  const isDue = row.seq - (row.packed ?? 0) > mostSingle;
  return isDue ? pack(tx, row, { most: mostPackedAtOnce }) : undefined;
}

interface ToPack {
  /** Single events, the oldest first; all without it. */
  readonly most?: number;
  readonly fresh?: readonly StoredEvent[];
}

/** Fills the last pack and begins new ones. In one transaction, so that a kill leaves the old or the new. */
async function pack(
  tx: LogTx<"readwrite">,
  row: TrialRow,
  { most, fresh = [] }: ToPack,
): Promise<TrialRow> {
  const { trial, seq, packed = 0 } = row;
  const singles = tx.objectStore("events");
  const [single, open] = await Promise.all([
    singles.index("by-trial").getAll(span(trial, packed), most),
    openPack(tx, trial, packed),
  ]);
  const removed = single.map(({ id }) => singles.delete(id));
  const events = [...(open ? eventsIn(open) : []), ...single.map(({ event }) => event), ...fresh];
  let first = open?.first ?? packed + 1;
  const written: Promise<unknown>[] = [];
  for (const { ids, text } of packsOf(events)) {
    const last = first + ids.length - 1;
    written.push(tx.objectStore("packs").add({ trial, first, last, text }));
    written.push(tx.objectStore("packed").add({ trial, last, ids }));
    first = last + 1;
  }
  await Promise.all([...removed, ...written]);
  return { ...row, seq: seq + fresh.length, packed: first - 1 };
}

/** A trial's last pack, taken out to be filled further; undefined when it is full or there is none. */
async function openPack(tx: LogTx<"readwrite">, trial: string, packed: number) {
  const last = await tx.objectStore("packs").get([trial, packed]);
  if (!last) return undefined;
  const isFull = packed - last.first + 1 >= fullEvents || last.text.length >= fullCharacters;
  if (isFull) return undefined;
  const key: [string, number] = [trial, packed];
  await Promise.all([tx.objectStore("packs").delete(key), tx.objectStore("packed").delete(key)]);
  return last;
}

function* packsOf(events: readonly StoredEvent[]) {
  let texts: string[] = [];
  let ids: string[] = [];
  let size = 0;
  for (const event of events) {
    const text = JSON.stringify(event);
    texts.push(text);
    ids.push(event.id);
    size += text.length;
    if (ids.length < fullEvents && size < fullCharacters) continue;
    yield { ids, text: `[${texts.join(",")}]` };
    [texts, ids, size] = [[], [], 0];
  }
  if (ids.length > 0) yield { ids, text: `[${texts.join(",")}]` };
}
