import fc from "fast-check";
import { expect, test } from "vitest";
import { base, memoryServer } from "../../test/doors/memory-server.ts";
import { note, trialId } from "../../test/doors/sample-events.ts";

const segment = fc.oneof(
  fc.constantFrom("api", "trials", "events", "report", "export", "import", "calculations", "root"),
  fc.constantFrom(trialId(1), trialId(2), "%", "%00", "..", "%2e%2e", "index.html", ""),
  fc.string({ maxLength: 12 }).map(encodeURIComponent),
);
const path = fc.oneof(
  fc.array(segment, { maxLength: 6 }).map((parts) => `/${parts.join("/")}`),
  fc.constantFrom(
    `/api/trials/${trialId(1)}/events`,
    "/api/trials/import",
    "/api/calculations/root",
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
const body = fc.oneof(
  fc.string({ unit: "binary", maxLength: 60 }),
  fc.json(),
  fc.array(event, { maxLength: 4 }).map((events) => JSON.stringify({ events })),
  fc.jsonValue().map((x) => JSON.stringify({ x })),
  fc.nat(5000).map((n) => "[".repeat(n)),
  fc.nat(5000).map((n) => '{"a":'.repeat(n)),
);
const headers = fc.record({
  "content-type": fc.constantFrom(
    "application/json",
    "application/json",
    "application/json",
    "text/plain",
  ),
  origin: fc.constantFrom(base, base, "http://other.example", "null", "%"),
});
const requests = fc.record({
  method: fc.constantFrom("GET", "POST", "POST", "POST", "PUT", "DELETE", "HEAD", "OPTIONS"),
  path,
  query,
  body,
  headers,
});

test("10,000 requests of any kind: an answer to each, never a fault", async () => {
  const { handle, faults } = await memoryServer();
  const counts = new Map<number, number>();
  for (const { method, path, query, body, headers } of fc.sample(requests, {
    numRuns: 10_000,
    seed: 20260614,
  })) {
    const carries = method !== "GET" && method !== "HEAD";
    const init = { method, headers, ...(carries ? { body } : {}) };
    const response = await handle(new Request(base + path + query, init));
    const text = await response.text();
    expect(response.status, `${method} ${path}${query} ${body}`).toBeLessThan(500);
    expect(text).not.toMatch(/\bNaN\b|Infinity/);
    counts.set(response.status, (counts.get(response.status) ?? 0) + 1);
  }
  expect(faults).toEqual([]);
  // The generator reached past the guards: all these kinds of answer were given.
  for (const status of [200, 403, 404, 409, 415, 422]) expect([...counts.keys()]).toContain(status);
});
