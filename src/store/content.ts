import { canonicalText, type StoredEvent } from "../trial/index.ts";

/** An event with its canonical text. */
export interface Entry {
  readonly event: StoredEvent;
  readonly content: string;
}

/** A batch with repeats taken out, and the ids that it holds twice with different content. */
export interface Distinct {
  readonly entries: readonly Entry[];
  readonly conflicts: readonly string[];
}

/** Two events are the same exactly when their canonical texts are. */
export function distinct(events: readonly StoredEvent[]): Distinct {
  const sorting = distinctInSlices(events);
  let step = sorting.next();
  while (step.done !== true) step = sorting.next();
  return step.value;
}

/** Events that are looked at between two yields. */
const slice = 250;

/** `distinct` that yields again and again, so that a caller can let others have their turn. */
export function* distinctInSlices(events: readonly StoredEvent[]): Generator<void, Distinct> {
  const contents = new Map<string, Entry>();
  const conflicts = new Set<string>();
  for (const [i, event] of events.entries()) {
    if (i % slice === slice - 1) yield;
    const content = canonicalText(event);
    const first = contents.get(event.id);
    if (first === undefined) contents.set(event.id, { event, content });
    else if (first.content !== content) conflicts.add(event.id);
  }
  return { entries: [...contents.values()], conflicts: [...conflicts] };
}
