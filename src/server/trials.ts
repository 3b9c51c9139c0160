import { createHash } from "node:crypto";
import { z } from "zod";
import type { UnitSystem } from "../report/index.ts";
import { inTurns, type LogStore, turn, type WorkspaceLog } from "../store/index.ts";
import {
  exportHead,
  inWrittenOrder,
  parseEventsInSlices,
  parseExportInSlices,
  type StoredEvent,
  type TrialEvent,
} from "../trial/index.ts";
import { parseLongList, type WireIssue } from "../wire/index.ts";
import { invalid, refusal } from "./answers.ts";
import type { LogTexts, ServerDeps } from "./deps.ts";

const batchSchema = z.strictObject({ events: z.array(z.unknown()).max(10_000) });

/** Issues in one answer; a broken file may have one in every line. */
const mostIssues = 50;

/** `POST /api/trials/:trial/events` */
export async function appendEvents(store: WorkspaceLog, trial: string, body: string) {
  const parsed = await parseBatch(trial, body);
  return parsed.kind === "invalid" ? invalid(parsed.issues) : appendParsed(store, parsed.events);
}

async function parseBatch(trial: string, body: string) {
  const json = await inTurns(parseLongList(body, "body", "events"));
  if (json.kind === "invalid") return json;
  const batch = batchSchema.safeParse(json.value);
  if (!batch.success) {
    const issue = {
      field: "body",
      value: typeof json.value,
      accepted: '{"events": [up to 10000]}',
    };
    return { kind: "invalid", issues: [issue] } as const;
  }
  const accepted = `the trial of the address, ${trial}`;
  const parsed = await inTurns(parseEventsInSlices(batch.data.events, trial, accepted));
  return parsed.kind === "invalid" ? firstOf(parsed.issues) : parsed;
}

const firstOf = (issues: readonly WireIssue[]) =>
  ({ kind: "invalid", issues: issues.slice(0, mostIssues) }) as const;

/** Appends events that are in order, and says what became of them; `extra` stands in a good answer. */
export async function appendParsed(
  store: WorkspaceLog,
  events: readonly TrialEvent[],
  extra: object = {},
) {
  const outcome = await store.append(events);
  switch (outcome.kind) {
    case "appended": {
      const { accepted, duplicates } = outcome;
      return Response.json({ ...extra, accepted, duplicates });
    }
    case "refused":
      return Response.json(
        {
          conflicts: outcome.conflicts,
          error: {
            kind: "conflict",
            message:
              "these events are in the log with other content; nothing of the batch was taken",
          },
        },
        { status: 409 },
      );
    case "failed":
      return refusal(503, outcome.reason, "nothing was written; the events must be sent again");
  }
}

/** Events in one answer; a longer log is fetched in several. A whole number of pieces. */
const mostRead = 20_000;
/** Events that are worked on at a time. */
const piece = 1000;

/** `GET /api/trials/:trial/events?after=` */
export async function readEvents(store: WorkspaceLog, trial: string, after: string | undefined) {
  const cursor = after === undefined ? 0 : /^\d{1,15}$/.test(after) ? Number(after) : undefined;
  if (cursor === undefined) {
    return invalid([{ field: "after", value: after, accepted: "a cursor from an earlier answer" }]);
  }
  const { texts, count, end } = await textsAfter(store, trial, cursor);
  const more = count < mostRead ? "" : ',"more":true';
  return new Response(`{"events":[${texts.join(",")}],"cursor":${end}${more}}`, {
    headers: { "content-type": "application/json" },
  });
}

/** In pieces, with a turn for others after each: a device that fetches a long log does not hold up those that stream. */
async function textsAfter(store: WorkspaceLog, trial: string, after: number) {
  const texts: string[] = [];
  let [count, end] = [0, after];
  for (let full = true; full && count < mostRead;) {
    const { events, cursor } = await store.read(trial, end, piece);
    full = events.length === piece;
    if (events.length > 0) texts.push(JSON.stringify(events).slice(1, -1));
    count += events.length;
    end = cursor;
  }
  return { texts, count, end };
}

/** `POST /api/trials/import` */
export async function importTrial(store: WorkspaceLog, body: string) {
  const json = await inTurns(parseLongList(body, "body", "events"));
  if (json.kind === "invalid") return invalid(json.issues);
  const parsed = await inTurns(parseExportInSlices(json.value));
  if (parsed.kind === "invalid") return invalid(firstOf(parsed.issues).issues);
  return appendParsed(store, parsed.events, { trial: parsed.trial });
}

/** `GET /api/trials/:trial/export`: what `exportTrial` gives, put together from the texts that are stored. */
export async function exportAnswer(store: LogStore, workspace: string, trial: string) {
  const entries: Stored[] = [];
  for await (const rows of store.rows(workspace, trial)) {
    for (const { content } of rows) {
      const { id, at } = JSON.parse(content) as StoredEvent;
      entries.push({ id, when: at, content });
    }
    await turn();
  }
  if (entries.length === 0) return unknownTrial();
  return new Response(exportBody(trial, inWrittenOrder(entries)), {
    headers: {
      "content-type": "application/json",
      "content-disposition": `attachment; filename="trial-${trial}.json"`,
    },
  });
}

interface Stored {
  readonly id: string;
  /** Instant by which an export is ordered. */
  readonly when: string;
  readonly content: string;
}

/** A piece is made when the one before has gone out: no text of the whole, and others have their turn. */
function exportBody(trial: string, entries: readonly Stored[]): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  let next = 0;
  return new ReadableStream({
    pull: (controller) => {
      const part = entries.slice(next, next + piece).map(({ content }) => content);
      const before =
        next === 0 ? `${JSON.stringify(exportHead(trial)).slice(0, -1)},"events":[` : ",";
      next += part.length;
      const isLast = next >= entries.length;
      controller.enqueue(encoder.encode(`${before}${part.join(",")}${isLast ? "]}" : ""}`));
      if (isLast) controller.close();
    },
  });
}

const unitSystems: readonly UnitSystem[] = ["as-typed", "si", "us"];

/** `GET /api/trials/:trial/report?units=` */
export async function reportAnswer(
  { store, report }: Pick<ServerDeps, "report" | "store">,
  { workspace, trial }: { readonly workspace: string; readonly trial: string },
  asked: string | undefined,
) {
  const units = asked === undefined ? "as-typed" : unitSystems.find((known) => known === asked);
  if (units === undefined) {
    return invalid([{ field: "units", value: asked, accepted: unitSystems.join(", ") }]);
  }
  const { events } = await store.in(workspace).read(trial, 0, 1);
  if (events.length === 0) return unknownTrial();
  const html = await report(logTexts(store, workspace, trial), units);
  return new Response(html, { headers: reportHeaders(html) });
}

/** In pieces, with a turn for other requests after each: a long log holds nobody up. */
async function* logTexts(store: LogStore, workspace: string, trial: string): LogTexts {
  for await (const rows of store.rows(workspace, trial)) {
    yield `[${rows.map(({ content }) => content).join(",")}]`;
    await turn();
  }
}

/** All events of a log in pieces. */
export async function eventsOf(log: LogTexts): Promise<readonly StoredEvent[]> {
  const events: StoredEvent[] = [];
  for await (const text of log) events.push(...(JSON.parse(text) as StoredEvent[]));
  return events;
}

function unknownTrial(): Response {
  return refusal(404, "unknown-trial", "no event of this trial is in the log");
}

/** Headers for a page made from a log: nothing runs in it, and only its own style elements apply. */
function reportHeaders(html: string): Record<string, string> {
  const styles = [...html.matchAll(/<style[^>]*>([\s\S]*?)<\/style>/g)].map(([, css = ""]) => {
    return `'sha256-${createHash("sha256").update(css).digest("base64")}'`;
  });
  const policy = [
    "default-src 'none'",
    `style-src ${styles.length > 0 ? styles.join(" ") : "'none'"}`,
    "img-src data:",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'self'",
    "sandbox allow-downloads allow-popups allow-modals",
  ].join("; ");
  return { "content-type": "text/html; charset=utf-8", "content-security-policy": policy };
}
