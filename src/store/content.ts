import type { StoredEvent } from "../trial/index.ts";

/**
 * The one text of an event: two events are the same exactly when their texts are. Keys are sorted,
 * because the order in which a sender wrote them is not content.
 */
export function contentOf(event: StoredEvent): string {
  return JSON.stringify(sorted(event));
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([key, item]) => [key, sorted(item)]));
}

/** A batch with repeats taken out, and the ids that it holds twice with different content. */
export function distinct(events: readonly StoredEvent[]) {
  const contents = new Map<string, { event: StoredEvent; content: string }>();
  const conflicts = new Set<string>();
  for (const event of events) {
    const content = contentOf(event);
    const first = contents.get(event.id);
    if (first === undefined) contents.set(event.id, { event, content });
    else if (first.content !== content) conflicts.add(event.id);
  }
  return { entries: [...contents.values()], conflicts: [...conflicts] };
}
