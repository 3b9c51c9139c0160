import { createApp, eventsOf, type ServerDeps } from "../../src/server/index.ts";
import { openSqliteStore } from "../../src/store/index.ts";
import { plainCalculation } from "./plain-calculation.ts";

/** A server on a log in memory, with one plain calculation. */
export async function memoryServer(change: Partial<ServerDeps> = {}) {
  const opened = await openSqliteStore(":memory:");
  if (opened.kind !== "opened") throw new Error(opened.detail);
  const faults: unknown[] = [];
  const handle = createApp({
    store: opened.store,
    ...plainCalculation,
    report: async (log) =>
      `<!doctype html><style>p{margin:0}</style><p>${(await eventsOf(log)).length} events</p>`,
    site: new Map(),
    onFault: (error) => faults.push(error),
    ...change,
  });
  return { handle, store: opened.store, faults };
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
