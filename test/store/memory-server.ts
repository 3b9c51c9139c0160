import { z } from "zod";
import { openSqliteStore } from "../../src/store/index.ts";
import { createApp, type ServerDeps, type ParsedExport } from "../../src/server/index.ts";
import { parseEvent, type StoredEvent } from "../../src/trial/index.ts";

/** A server on a log in memory, with one calculation and the plainest export there can be. */
export async function memoryServer(change: Partial<ServerDeps> = {}) {
  const opened = await openSqliteStore(":memory:");
  if (opened.kind !== "opened") throw new Error(opened.detail);
  const faults: unknown[] = [];
  const input = z.strictObject({ x: z.number() });
  const handle = createApp({
    store: opened.store,
    calculations: [
      {
        name: "root",
        title: "Square root",
        input,
        output: z.strictObject({ root: z.number() }),
        cautions: ["none"],
        sources: ["arithmetic"],
      },
    ],
    compute: (_, raw) => {
      const parsed = input.safeParse(raw);
      if (!parsed.success) {
        return { kind: "invalid", issues: [{ field: "x", value: null, accepted: "a number" }] };
      }
      if (parsed.data.x < 0) return { kind: "no-answer", reason: "negative", message: "no root" };
      const result = { root: Math.sqrt(parsed.data.x) };
      return { kind: "answer", result, cautions: ["none"], sources: ["arithmetic"] };
    },
    report: (events) => `<!doctype html><style>p{margin:0}</style><p>${events.length} events</p>`,
    exportTrial: (events) => JSON.stringify({ events }),
    parseExport,
    site: new Map(),
    onFault: (error) => faults.push(error),
    ...change,
  });
  return { handle, store: opened.store, faults };
}

function parseExport(input: unknown): ParsedExport {
  const file = z.object({ events: z.array(z.unknown()).min(1) }).safeParse(input);
  const bad = { field: "events", value: null, accepted: "events" };
  if (!file.success) return { kind: "invalid", issues: [bad] };
  const events: StoredEvent[] = [];
  for (const raw of file.data.events) {
    const parsed = parseEvent(raw);
    if (parsed.kind === "invalid") return parsed;
    events.push(parsed.event);
  }
  return { kind: "trial", events: events as Extract<ParsedExport, { kind: "trial" }>["events"] };
}

export const base = "http://127.0.0.1:4780";

export function get(path: string, headers: Record<string, string> = {}): Request {
  return new Request(base + path, { headers });
}

export function post(path: string, body: unknown, headers: Record<string, string> = {}): Request {
  return new Request(base + path, {
    method: "POST",
    headers: { "content-type": "application/json", ...headers },
    body: typeof body === "string" ? body : JSON.stringify(body),
  });
}
