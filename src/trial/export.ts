import { z } from "zod";
import type { TrialEvent } from "./events.ts";
import { canonicalText, instantOf } from "./order.ts";
import { parseEvent } from "./parse.ts";
import type { Issue, StoredEvent } from "./view.ts";

/** One trial as one file. Events stand in the written order, so equal logs give equal files. */
export interface TrialExport {
  readonly format: "coldproof-trial";
  readonly version: 1;
  readonly trial: string;
  readonly events: readonly StoredEvent[];
}

export type ParsedExport =
  | { readonly kind: "export"; readonly trial: string; readonly events: readonly TrialEvent[] }
  | { readonly kind: "invalid"; readonly issues: readonly Issue[] };

export type ParsedEvents =
  | { readonly kind: "events"; readonly events: readonly TrialEvent[] }
  | Extract<ParsedExport, { kind: "invalid" }>;

const mostEvents = 200_000;
const mostIssues = 50;

const fileSchema = z.object({
  format: z.literal("coldproof-trial"),
  version: z.literal(1),
  trial: z.uuid(),
  events: z.array(z.unknown()).max(mostEvents),
});

/** @throws RangeError for no events or events of two trials: the caller's bug. */
export function exportTrial(events: readonly StoredEvent[]): TrialExport {
  const trial = events[0]?.trial;
  if (trial === undefined) throw new RangeError("an export needs at least one event");
  const other = events.find((event) => event.trial !== trial);
  if (other) throw new RangeError(`events of two trials: ${trial} and ${other.trial}`);
  return { ...exportHead(trial), events: inWrittenOrder(events).map(({ event }) => event) };
}

/** What stands in an export before its events. */
export function exportHead(trial: string): Omit<TrialExport, "events"> {
  return { format: "coldproof-trial", version: 1, trial };
}

/** Distinct events with their canonical texts, in the written order; by text where an id has two. */
export function inWrittenOrder(events: readonly StoredEvent[]) {
  const byText = new Map(events.map((event) => [canonicalText(event), event]));
  const stamped = Array.from(byText, ([text, event]) => ({ text, event, at: instantOf(event.at) }));
  return stamped.sort((a, b) => {
    if (a.at !== b.at) return a.at - b.at;
    if (a.event.id !== b.event.id) return a.event.id < b.event.id ? -1 : 1;
    return a.text < b.text ? -1 : 1;
  });
}

/** A file from outside: taken whole or not at all, with what is wrong named by place. Never throws. */
export function parseExport(input: unknown): ParsedExport {
  const parsing = parseExportInSlices(input);
  let step = parsing.next();
  while (step.done !== true) step = parsing.next();
  return step.value;
}

/** Events that are looked at between two yields. */
const slice = 250;

/** `parseExport` that yields again and again, so that a caller can let others have their turn. */
export function* parseExportInSlices(input: unknown): Generator<void, ParsedExport> {
  const file = fileSchema.safeParse(input);
  if (!file.success) {
    const issues = file.error.issues.map(({ path, message }) => ({
      field: path.map(String).join(".") || "(whole)",
      value: typeof input === "object" && input !== null ? "an object" : input,
      accepted: `a file of format coldproof-trial, version 1 (${message})`,
    }));
    return { kind: "invalid", issues };
  }
  const { trial } = file.data;
  const parsed = yield* parseEventsInSlices(file.data.events, trial, trial);
  return parsed.kind === "invalid" ? parsed : { kind: "export", trial, events: parsed.events };
}

/**
 * Events of one trial, all of them or what is wrong with the first that are.
 *
 * @param accepted what is said of an event of another trial.
 */
export function* parseEventsInSlices(
  raw: readonly unknown[],
  trial: string,
  accepted: string,
): Generator<void, ParsedEvents> {
  const events: TrialEvent[] = [];
  const issues: Issue[] = [];
  for (const [i, one] of raw.entries()) {
    if (issues.length >= mostIssues) break;
    if (i % slice === slice - 1) yield;
    const parsed = parseEvent(one);
    const mine =
      parsed.kind === "invalid" ? parsed.issues : strangeness(parsed.event, trial, accepted);
    issues.push(...mine.map((issue) => ({ ...issue, field: `events.${i}.${issue.field}` })));
    if (parsed.kind === "event") events.push(parsed.event);
  }
  return issues.length > 0 ? { kind: "invalid", issues } : { kind: "events", events };
}

function strangeness({ trial: value }: TrialEvent, trial: string, accepted: string): Issue[] {
  return value === trial ? [] : [{ field: "trial", value, accepted }];
}
