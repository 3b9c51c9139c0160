import fc from "fast-check";
import { expect } from "vitest";
import { base, memoryServer } from "./memory-server.ts";
import { note, trialId } from "./sample-events.ts";
import { sharedServer, shopAddress, stranger } from "./shared-server.ts";

const words = [
  ...["api", "trials", "events", "report", "export", "import", "calculations", "root"],
  ...["access", "pairings", "redeem", "devices", "workspaces", "live", "openapi.json"],
];
const segment = fc.oneof(
  fc.constantFrom(...words),
  fc.constantFrom(trialId(1), trialId(2), "%", "%00", "..", "%2e%2e", "index.html", ""),
  fc.string({ maxLength: 12 }).map(encodeURIComponent),
);
const path = fc.oneof(
  fc.array(segment, { maxLength: 6 }).map((parts) => `/${parts.join("/")}`),
  fc.constantFrom(
    `/api/trials/${trialId(1)}/events`,
    "/api/trials/import",
    "/api/calculations/root",
    "/api/pairings",
    "/api/pairings/redeem",
    "/api/workspaces",
    "/api/devices/none",
    "/api/access",
  ),
);
const query = fc.oneof(
  fc.constant(""),
  fc.string({ maxLength: 20 }).map((text) => `?after=${encodeURIComponent(text)}`),
);
const event = fc.oneof(
  fc.nat(40).map((n) => note(n)),
  fc.tuple(fc.nat(40), fc.nat(1)).map(([n, m]) => note(n, { text: `text ${m}` })),
  fc
    .tuple(fc.nat(40), fc.dictionary(fc.string(), fc.jsonValue(), { maxKeys: 4 }))
    .map(([n, fields]): object => ({ ...note(n), ...fields })),
  fc.tuple(fc.nat(40), fc.jsonValue()).map(([n, body]): object => ({ ...note(n), body })),
);
const form = fc.record(
  {
    role: fc.oneof(fc.constantFrom("owner", "tester", "viewer"), fc.jsonValue()),
    name: fc.oneof(fc.string(), fc.jsonValue()),
    code: fc.oneof(fc.string({ unit: "binary" }), fc.jsonValue()),
    device: fc.jsonValue(),
  },
  { requiredKeys: [] },
);
const body = fc.oneof(
  fc.string({ unit: "binary", maxLength: 60 }),
  fc.json(),
  fc.array(event, { maxLength: 4 }).map((events) => JSON.stringify({ events })),
  fc.jsonValue().map((x) => JSON.stringify({ x })),
  form.map((fields) => JSON.stringify(fields)),
  fc.nat(5000).map((n) => "[".repeat(n)),
  fc.nat(5000).map((n) => '{"a":'.repeat(n)),
);
const headers = fc.record({
  "content-type": fc.constantFrom(
    ...["application/json", "application/json", "application/json", "text/plain"],
  ),
  origin: fc.constantFrom("own", "own", "http://other.example", "null", "%"),
  /** Which key goes along, if any. */
  key: fc.constantFrom("none", "owner", "tester", "wrong"),
});
const wild = fc.record({
  method: fc.constantFrom("GET", "POST", "POST", "POST", "PUT", "DELETE", "HEAD", "OPTIONS"),
  path,
  query,
  body,
  headers,
});
/** Nearly right, so that some get past every check. */
const nearlyRight = fc.record({
  method: fc.constant("POST"),
  path: fc.constantFrom(
    "/api/pairings",
    "/api/pairings/redeem",
    `/api/trials/${trialId(1)}/events`,
  ),
  query: fc.constant(""),
  body: fc.constantFrom(
    ...['{"role":"tester"}', '{"role":"viewer","name":"bay 2"}', '{"code":"0123-4567-89AB"}'],
    JSON.stringify({ events: [note(1)] }),
    JSON.stringify({ events: [note(1, { text: "something else" })] }),
  ),
  headers,
});
const requests = fc.oneof({ weight: 6, arbitrary: wild }, { weight: 1, arbitrary: nearlyRight });

export interface FuzzReport {
  /** How often each status was answered. */
  readonly counts: ReadonlyMap<number, number>;
  /** Heap in use after a collection, MB: at a quarter, a half, three quarters and the end. */
  readonly heap: readonly number[];
}

/**
 * Sends requests of every kind to a server of one person (`alone`) or of several shops (`shared`), with
 * keys of every kind. An answer to each, never a fault.
 */
export async function fuzz(
  kind: "alone" | "shared",
  { count, seed }: { count: number; seed: number },
): Promise<FuzzReport> {
  const server = kind === "alone" ? await alone() : await shared();
  const counts = new Map<number, number>();
  const heap: number[] = [];
  const part = 2_500;
  for (let done = 0; done < count; done += part) {
    const sample = fc.sample(requests, {
      numRuns: Math.min(part, count - done),
      seed: seed + done,
    });
    for (const { method, path, query, body, headers } of sample) {
      const carries = method !== "GET" && method !== "HEAD";
      const { origin, key, ...rest } = headers;
      const init = {
        method,
        headers: {
          ...rest,
          origin: origin === "own" ? server.origin : origin,
          ...authorization(server.keys[key]),
        },
        ...(carries ? { body } : {}),
      };
      const response = await server.handle(
        new Request(server.origin + path + query, init),
        stranger,
      );
      const isLive = response.headers.get("content-type") === "text/event-stream";
      const text = isLive ? "" : await response.text();
      if (isLive) await response.body?.cancel();
      expect(response.status, `${method} ${path}${query} ${body}`).toBeLessThan(500);
      expect(text).not.toMatch(/\bNaN\b|Infinity/);
      counts.set(response.status, (counts.get(response.status) ?? 0) + 1);
      server.tick();
    }
    if (Math.floor((4 * (done + part)) / count) > heap.length) heap.push(heapNow());
  }
  expect(server.faults).toEqual([]);
  return { counts, heap };
}

type Keys = Readonly<Record<string, string | undefined>>;

async function alone() {
  const { handle, faults } = await memoryServer();
  const keys: Keys = {};
  return { handle, faults, keys, origin: base, tick: () => undefined };
}

async function shared() {
  const { handle, faults, shop, pair, clock } = await sharedServer();
  const { id, owner } = await shop("a");
  const { key: tester } = await pair(id, "tester");
  const keys: Keys = { owner, tester, wrong: "wrong" };
  // Slow enough for the limits to let most requests through, and some not.
  const tick = () => void (clock.now += 40);
  return { handle, faults, keys, origin: shopAddress, tick };
}

function authorization(key: string | undefined): Record<string, string> {
  return key === undefined ? {} : { authorization: `Bearer ${key}` };
}

function heapNow(): number {
  globalThis.gc?.();
  return process.memoryUsage().heapUsed / 2 ** 20;
}
