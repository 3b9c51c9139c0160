import type { EventType, StoredEvent, TrialView } from "../../trial/index.ts";
import { type LessonEntry, lessonPart, listing, nameOf } from "./lesson.ts";

/** Makes an event of this trial; its id is new. */
type Make = (type: EventType, body: unknown) => StoredEvent;

/**
 * The entries of a step as events of this trial. What they refer to is found by its name; what was never
 * listed here, or under another name, is listed first.
 */
export function eventsOfPart(id: string, view: TrialView, make: Make): readonly StoredEvent[] {
  const known = namesIn(view);
  const made: StoredEvent[] = [];
  const idOf = (name: string): string => {
    const there = known.get(name.toLowerCase());
    if (there !== undefined) return there;
    const entry = listing(name);
    if (!entry) throw new RangeError(`the lesson lists nothing under ${name}`);
    return add(entry);
  };
  const add = (entry: LessonEntry): string => {
    const event = make(entry.type, withIds(entry.body, idOf));
    made.push(event);
    const name = nameOf(entry);
    if (name !== undefined) known.set(name.toLowerCase(), event.id);
    return event.id;
  };
  for (const entry of lessonPart(id)) {
    const name = nameOf(entry);
    if (name === undefined || !known.has(name.toLowerCase())) add(entry);
  }
  return made;
}

/** Ids by name in small letters. The trial has one product, whatever the learner called it. */
function namesIn({ entries, products }: TrialView): Map<string, string> {
  const known = new Map<string, string>();
  for (const { type, id, body, withdrawn } of entries) {
    const name = nameOf({ type, body: { ...body } });
    if (name !== undefined && !withdrawn) known.set(name.trim().toLowerCase(), id);
  }
  if (products[0] && !known.has("kestrel")) known.set("kestrel", products[0].id);
  return known;
}

/** A body whose "@" names are replaced with ids. */
function withIds(value: unknown, idOf: (name: string) => string): unknown {
  if (typeof value === "string") return value.startsWith("@") ? idOf(value.slice(1)) : value;
  if (Array.isArray(value)) return value.map((one) => withIds(one, idOf));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, withIds(one, idOf)]));
}
