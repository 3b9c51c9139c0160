import type { EventType } from "./events.ts";
import { type Parsed, parseBody } from "./parse.ts";
import type { Series, Settlement, TraceView } from "./traces/view.ts";
import type { EntryOf, EntryType, Refused, StoredEvent } from "./view.ts";

/** An entry before anybody amended it, or why it says nothing; undefined for an event that amends. */
export type PlainEntry = EntryOf<EntryType> | Refused | undefined;

/**
 * What a caller may keep between two projections of a growing log, so that long traces are read and
 * judged once. It goes by the events themselves: the same objects give the same answers. A projection without it gives the same view.
 */
export interface Memory {
  /** Bodies of events that share their id with another: which of them is sound decides. */
  readonly bodies: WeakMap<StoredEvent, Parsed<object>>;
  /** The log of the last projection, and what each of its events says before anybody amended it. */
  last: { readonly events: readonly StoredEvent[]; readonly plain: readonly PlainEntry[] };
  readonly traces: WeakMap<object, { readonly atmosphere: number; readonly view: TraceView }>;
  /** Streams by the body that opened them, with the batches that were read. */
  readonly streams: WeakMap<
    object,
    { readonly atmosphere: number; readonly batches: readonly object[]; readonly view: TraceView }
  >;
  readonly settlements: WeakMap<Series, Map<string, Settlement>>;
}

export const freshMemory = (): Memory => ({
  bodies: new WeakMap(),
  last: { events: [], plain: [] },
  traces: new WeakMap(),
  streams: new WeakMap(),
  settlements: new WeakMap(),
});

/** `parseBody` of an event's body, once an event. */
export function rememberedBody<T extends EventType>(
  memory: Memory,
  event: StoredEvent,
  type: T,
): ReturnType<typeof parseBody<T>> {
  const known = memory.bodies.get(event);
  // One event has one type, so what was kept for it is of that type.
  if (known) return known as ReturnType<typeof parseBody<T>>;
  const parsed = parseBody(type, event.body);
  memory.bodies.set(event, parsed);
  return parsed;
}

/** The settlement of one stretch of one series, computed once. */
export function rememberedSettlement(
  memory: Memory,
  series: Series,
  stretch: string,
  compute: () => Settlement,
): Settlement {
  const known = memory.settlements.get(series) ?? new Map<string, Settlement>();
  memory.settlements.set(series, known);
  const settlement = known.get(stretch) ?? compute();
  known.set(stretch, settlement);
  return settlement;
}
