import type { EventType } from "../events.ts";

/** What can be hidden as a whole. */
export const hidables = ["devices", "places", "vehicle", "instruments", "notes", "files"] as const;
export type Hidable = (typeof hidables)[number];

/**
 * How a free text is treated: with all of its kind, only word by word, or only where its meaning stays.
 * `claim` and `price` are read for what they say; `table` is a logger's file and `column` a heading of it.
 */
export type TextKind =
  Exclude<Hidable, "devices"> | "words" | "claim" | "price" | "table" | "column";

/** Every free text of every body, by its path; `*` stands for each place of a list. Nothing else is touched. */
export const freeTexts: Readonly<Record<EventType, Readonly<Record<string, TextKind>>>> = {
  "trial-opened": { title: "words", question: "words", place: "places", conditions: "words" },
  "vehicle-described": { name: "vehicle", oil: "words" },
  "instrument-listed": { name: "instruments" },
  "product-listed": {
    name: "words",
    declares: "words",
    "claims.*": "claim",
    price: "price",
    fitting: "words",
  },
  "vessel-listed": { name: "words" },
  "reading-taken": { place: "places", note: "notes" },
  "transfer-posted": { note: "notes" },
  "vessel-found-empty": { evidence: "notes" },
  "run-recorded": { name: "words", note: "notes" },
  "trace-imported": {
    fileName: "files",
    content: "table",
    "mapping.time.column": "column",
    "mapping.columns.*.column": "column",
  },
  "stream-opened": { name: "words", "columns.*.column": "words" },
  "samples-received": {},
  "sample-tested": { note: "notes" },
  "claim-read": { text: "claim" },
  "item-confirmed": {},
  "note-written": { text: "notes" },
  "log-redacted": {},
  "entry-corrected": { reason: "notes" },
  "entry-withdrawn": { reason: "notes" },
};

/** A copy in which the text at a path is another; what is not there stays away. */
export function withText(
  value: unknown,
  path: readonly string[],
  change: (text: string) => string,
): unknown {
  const [name, ...rest] = path;
  if (name === undefined) return typeof value === "string" ? change(value) : value;
  if (Array.isArray(value)) {
    return name === "*" ? value.map((one) => withText(one, rest, change)) : value;
  }
  if (typeof value !== "object" || value === null || !(name in value)) return value;
  const inner = (value as Readonly<Record<string, unknown>>)[name];
  return { ...value, [name]: withText(inner, rest, change) };
}
