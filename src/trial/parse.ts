import type { z } from "zod";
import { refineVehicle } from "../vehicle/index.ts";
import { quantityIssues } from "./dimensions.ts";
import { type BodyOf, bodySchemas, envelopeSchema, type EventType } from "./events.ts";
import type { TrialEvent } from "./events.ts";
import { isPlainBody } from "./plain-body.ts";
import type { Issue } from "./view.ts";

export type Parsed<T> =
  | { readonly kind: "valid"; readonly value: T }
  | { readonly kind: "invalid"; readonly issues: readonly Issue[] };
export type ParsedEvent =
  | { readonly kind: "event"; readonly event: TrialEvent }
  | { readonly kind: "invalid"; readonly issues: readonly Issue[] };

const longestShown = 120;

/** What stood at a path, cut to a length that an answer can carry. */
function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let at: unknown = input;
  for (const key of path) {
    if (typeof at !== "object" || at === null) return undefined;
    at = (at as Record<PropertyKey, unknown>)[key];
  }
  if (typeof at === "string" && at.length > longestShown) return `${at.slice(0, longestShown)}…`;
  return typeof at === "object" && at !== null ? (Array.isArray(at) ? "a list" : "an object") : at;
}

const issuesOf = (error: z.ZodError, input: unknown): Issue[] =>
  error.issues.map((issue) => ({
    field: issue.path.map(String).join(".") || "(whole)",
    value: valueAt(input, issue.path),
    accepted: acceptedBy(issue),
  }));

function acceptedBy(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_value":
      return `one of: ${issue.values.map(String).join(", ")}`;
    case "unrecognized_keys":
      return `no field named ${issue.keys.join(", ")}`;
    case "too_big":
      return `at most ${issue.maximum}`;
    case "too_small":
      return `at least ${issue.minimum}`;
    case "invalid_format":
      return issue.format === "datetime"
        ? "a date and time such as 2026-06-14T08:41:00Z"
        : `a text in the form of ${issue.format}`;
    case "invalid_type":
      return issue.expected;
    case "custom":
    case "invalid_element":
    case "invalid_key":
    case "invalid_union":
    case "not_multiple_of":
      return issue.message;
  }
}

/** A body of one type: its form, then its units and ranges. */
export function parseBody<T extends EventType>(type: T, body: unknown): Parsed<BodyOf<T>> {
  const result = isPlainBody(type, body)
    ? ({ success: true, data: body } as const)
    : bodySchemas[type].safeParse(body);
  if (!result.success) return { kind: "invalid", issues: issuesOf(result.error, body) };
  // The schema of `type` gives the body of `type`; the compiler sees only the union of all bodies.
  const value = result.data as BodyOf<T>;
  // Numbers without units, by the hundred thousand.
  if (type === "samples-received") return { kind: "valid", value };
  const issues = [...quantityIssues(type, value), ...modelIssues(value)];
  return issues.length === 0 ? { kind: "valid", value } : { kind: "invalid", issues };
}

/** Parameters of the vehicle's model that it does not have, or could not have. */
function modelIssues(body: BodyOf<EventType>): readonly Issue[] {
  if (!("model" in body) || body.model === undefined) return [];
  const outcome = refineVehicle(body.model.preset, body.model.refined ?? {});
  if (outcome.kind === "vehicle") return [];
  return outcome.issues.map((issue) => ({ ...issue, field: `model.refined.${issue.field}` }));
}

/** One line of a log from outside: envelope, body, units and ranges. Never throws. */
export function parseEvent(input: unknown): ParsedEvent {
  const envelope = envelopeSchema.safeParse(input);
  if (!envelope.success) return { kind: "invalid", issues: issuesOf(envelope.error, input) };
  const body = parseBody(envelope.data.type, envelope.data.body);
  if (body.kind === "invalid") {
    const issues = body.issues.map((issue) => ({ ...issue, field: `body.${issue.field}` }));
    return { kind: "invalid", issues };
  }
  return { kind: "event", event: { ...envelope.data, body: body.value } as TrialEvent };
}
