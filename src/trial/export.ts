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
  return {
    format: "coldproof-trial",
    version: 1,
    trial,
    events: inWrittenOrder(events).map(({ event }) => event),
  };
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
  const events: TrialEvent[] = [];
  const issues: Issue[] = [];
  file.data.events.forEach((event, i) => {
    if (issues.length >= mostIssues) return;
    const parsed = parseEvent(event);
    if (parsed.kind === "invalid") {
      issues.push(
        ...parsed.issues.map((issue) => ({ ...issue, field: `events.${i}.${issue.field}` })),
      );
    } else if (parsed.event.trial !== trial) {
      issues.push({ field: `events.${i}.trial`, value: parsed.event.trial, accepted: trial });
    } else {
      events.push(parsed.event);
    }
  });
  return issues.length > 0 ? { kind: "invalid", issues } : { kind: "export", trial, events };
}
