import { canonicalText, type StoredEvent } from "../trial/index.ts";

/**
 * A batch with repeats taken out, and the ids that it holds twice with different content. Two events are
 * the same exactly when their canonical texts are.
 */
export function distinct(events: readonly StoredEvent[]) {
  const contents = new Map<string, { event: StoredEvent; content: string }>();
  const conflicts = new Set<string>();
  for (const event of events) {
    const content = canonicalText(event);
    const first = contents.get(event.id);
    if (first === undefined) contents.set(event.id, { event, content });
    else if (first.content !== content) conflicts.add(event.id);
  }
  return { entries: [...contents.values()], conflicts: [...conflicts] };
}
