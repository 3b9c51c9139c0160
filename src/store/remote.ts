import { z } from "zod";
import { parseEvent, type StoredEvent } from "../trial/index.ts";
import type { Remote } from "./synchronise.ts";

const trialsAnswer = z.object({
  trials: z.array(z.object({ trial: z.uuid(), events: z.number().int().nonnegative() })),
  workspace: z.string().optional(),
  epoch: z.string().optional(),
});
const appendAnswer = z.object({
  accepted: z.array(z.string()),
  duplicates: z.array(z.string()),
});
const conflictAnswer = z.object({ conflicts: z.array(z.string()).min(1) });
const logAnswer = z.object({
  events: z.array(z.unknown()),
  cursor: z.number().int().nonnegative(),
  more: z.boolean().optional(),
});

const unreachable = { kind: "failed", reason: "unreachable" } as const;
const notUnderstood = { kind: "failed", reason: "not-understood" } as const;
const cannotWrite = { kind: "failed", reason: "cannot-write" } as const;
const noKey = { kind: "failed", reason: "no-key" } as const;
const mayNotWrite = { kind: "failed", reason: "may-not-write" } as const;

/**
 * A Coldproof server, over HTTP.
 *
 * @param fetch the browser's, or a test's stand-in.
 * @param base  origin of the server without a slash at its end; empty for the page's own.
 */
export function remoteOver(fetch: (request: Request) => Promise<Response>, base: string): Remote {
  /** Status and JSON body, or undefined when no answer came. A body that is no JSON reads as undefined. */
  const ask = async (path: string, send?: unknown) => {
    const init =
      send === undefined
        ? {}
        : {
            method: "POST",
            headers: { "content-type": "application/json" },
            body: JSON.stringify(send),
          };
    try {
      const response = await fetch(new Request(`${base}${path}`, init));
      const text = await response.text();
      return { status: response.status, body: text };
    } catch {
      return undefined;
    }
  };

  return {
    trials: async () => {
      const answer = await ask("/api/trials");
      if (answer === undefined) return unreachable;
      if (answer.status === 401) return noKey;
      const parsed = read(trialsAnswer, answer.body);
      if (answer.status !== 200 || parsed === undefined) return notUnderstood;
      return { kind: "trials", ...parsed };
    },
    push: async (trial, events) => {
      const answer = await ask(`/api/trials/${trial}/events`, { events });
      if (answer === undefined) return unreachable;
      if (answer.status === 401) return noKey;
      if (answer.status === 403) return mayNotWrite;
      if (answer.status === 503 || answer.status === 429) return cannotWrite;
      const conflict = answer.status === 409 ? read(conflictAnswer, answer.body) : undefined;
      if (conflict !== undefined) return { kind: "refused", conflicts: conflict.conflicts };
      const taken = answer.status === 200 ? read(appendAnswer, answer.body) : undefined;
      return taken === undefined ? notUnderstood : { kind: "appended", ...taken };
    },
    pull: async (trial, after) => {
      const answer = await ask(`/api/trials/${trial}/events?after=${after}`);
      if (answer === undefined) return unreachable;
      if (answer.status === 401) return noKey;
      const log = answer.status === 200 ? read(logAnswer, answer.body) : undefined;
      const events = log === undefined ? undefined : eventsOf(log.events);
      if (log === undefined || events === undefined) return notUnderstood;
      return { kind: "log", events, cursor: log.cursor, more: log.more === true };
    },
  };
}

function read<T>(schema: z.ZodType<T>, text: string): T | undefined {
  try {
    return schema.safeParse(JSON.parse(text)).data;
  } catch {
    return undefined;
  }
}

/** All or nothing: passing over an event that a newer version wrote would lose it behind the cursor. */
function eventsOf(values: readonly unknown[]): readonly StoredEvent[] | undefined {
  const events: StoredEvent[] = [];
  for (const value of values) {
    const parsed = parseEvent(value);
    if (parsed.kind !== "event") return undefined;
    events.push(parsed.event);
  }
  return events;
}
