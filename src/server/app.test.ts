import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { base, get, memoryServer, post } from "../../test/doors/memory-server.ts";
import { eventId, note, trialId } from "../../test/doors/sample-events.ts";
import { Busy } from "./aside.ts";

const events = `/api/trials/${trialId(1)}/events`;
const issuesOf = async (response: Response) =>
  ((await response.json()) as { issues: { field: string; accepted: string }[] }).issues;

test("takes a batch, takes it again, and gives it back after a cursor", async () => {
  const { handle } = await memoryServer();
  const first = await handle(post(events, { events: [note(1), note(2)] }));
  expect(first.status).toBe(200);
  expect(await first.json()).toEqual({ accepted: [eventId(1), eventId(2)], duplicates: [] });
  const again = await handle(post(events, { events: [note(2), note(3)] }));
  expect(await again.json()).toEqual({ accepted: [eventId(3)], duplicates: [eventId(2)] });
  const log = await handle(get(`${events}?after=2`));
  expect(await log.json()).toEqual({ events: [note(3)], cursor: 3 });
  const list = await handle(get("/api/trials"));
  expect(await list.json()).toEqual({
    trials: [{ trial: trialId(1), events: 3 }],
    workspace: "home",
    epoch: expect.any(String) as string,
  });
});

test("refuses another content under a known id, by name, and takes nothing", async () => {
  const { handle, store } = await memoryServer();
  await handle(post(events, { events: [note(1)] }));
  const refused = await handle(post(events, { events: [note(2), note(1, { text: "other" })] }));
  expect(refused.status).toBe(409);
  expect(await refused.json()).toMatchObject({ conflicts: [eventId(1)] });
  expect((await store.read(trialId(1))).cursor).toBe(1);
});

test("answers 503 when the disk did not take the batch", async () => {
  const { store } = await memoryServer();
  const full = {
    ...store,
    append: () => Promise.resolve({ kind: "failed", reason: "disk-full" } as const),
  };
  const { handle } = await memoryServer({ store: full });
  const response = await handle(post(events, { events: [note(1)] }));
  expect(response.status).toBe(503);
  expect(await response.json()).toMatchObject({ error: { kind: "disk-full" } });
});

test.for([
  ["text that is no JSON", "{", "body"],
  ["nesting without end", "[".repeat(100_000), "body"],
  ["a list instead of a batch", "[]", "body"],
  ["an event that is no event", { events: [note(1), { id: 7 }] }, "events.1.id"],
  ["an event of another trial", { events: [note(1, { trial: 2 })] }, "events.0.trial"],
] as const)("names what is wrong with %s", async ([, body, field]) => {
  const { handle, store } = await memoryServer();
  const response = await handle(post(events, body));
  expect(response.status).toBe(422);
  expect((await issuesOf(response)).map((issue) => issue.field)).toContain(field);
  expect(await store.trials()).toEqual([]);
});

test("refuses more than 16 MB, also when the length is not announced", async () => {
  const { handle } = await memoryServer();
  const large = `{"events":[],"x":"${"x".repeat(16 * 2 ** 20)}"}`;
  expect((await handle(post(events, large))).status).toBe(413);
  const piece = new TextEncoder().encode(" ".repeat(2 ** 20));
  let sent = 0;
  const body = new ReadableStream<Uint8Array>({
    pull: (controller) => {
      if (++sent > 40) controller.close();
      else controller.enqueue(piece);
    },
  });
  const init = {
    method: "POST",
    body,
    duplex: "half",
    headers: { "content-type": "application/json" },
  };
  expect((await handle(new Request(base + events, init))).status).toBe(413);
  expect(sent).toBeLessThan(30);
});

test("keeps other sites out", async () => {
  const { handle } = await memoryServer();
  const rebound = new Request("http://garage.example/api/trials");
  expect((await handle(rebound)).status).toBe(403);
  expect((await handle(get("/api/trials", { host: "garage.example:4780" }))).status).toBe(403);
  expect((await handle(get("/api/trials", { host: "localhost:4780" }))).status).toBe(200);
  const write = (headers: Record<string, string>) =>
    handle(post(events, { events: [note(1)] }, headers)).then(({ status }) => status);
  expect(await write({ origin: "http://garage.example" })).toBe(403);
  expect(await write({ origin: "null" })).toBe(403);
  expect(await write({ origin: "http://127.0.0.1:9999" })).toBe(403);
  expect(await write({ "sec-fetch-site": "cross-site" })).toBe(403);
  expect(await write({ "content-type": "text/plain" })).toBe(415);
  expect(await write({ origin: base })).toBe(200);
});

test("every answer has strict headers", async () => {
  const { handle } = await memoryServer();
  for (const request of [get("/"), get("/api/trials"), get("/api/none"), post("/api/x", "{}")]) {
    const { headers } = await handle(request);
    expect(headers.get("content-security-policy")).toMatch(/^default-src 'self'/);
    expect(headers.get("content-security-policy")).not.toMatch(/unsafe/);
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("access-control-allow-origin")).toBeNull();
  }
});

test("a report runs nothing and shows only its own style", async () => {
  const { handle } = await memoryServer();
  await handle(post(events, { events: [note(1)] }));
  const response = await handle(get(`/api/trials/${trialId(1)}/report`));
  expect(await response.text()).toContain("1 events");
  const policy = response.headers.get("content-security-policy");
  const hash = createHash("sha256").update("p{margin:0}").digest("base64");
  expect(policy).toContain(`style-src 'sha256-${hash}'`);
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain("sandbox");
  expect(policy).not.toContain("allow-scripts");
});

test("an export taken in elsewhere gives the same log", async () => {
  const here = await memoryServer();
  await here.handle(post(events, { events: [note(2), note(1)] }));
  const given = async ({ handle }: typeof here) =>
    (await handle(get(`/api/trials/${trialId(1)}/export`))).text();
  const file = await given(here);
  const there = await memoryServer();
  const imported = await there.handle(post("/api/trials/import", file));
  expect(await imported.json()).toMatchObject({ trial: trialId(1), duplicates: [] });
  expect(await given(there)).toBe(file);
  expect((await there.handle(post("/api/trials/import", "{}"))).status).toBe(422);
});

test("what does not exist is 404, in JSON", async () => {
  const { handle } = await memoryServer();
  const paths = ["/api", "/api/none", "/none.js", `/api/trials/${trialId(9)}/report`];
  for (const path of [...paths, `/api/trials/${trialId(9)}/export`]) {
    const response = await handle(get(path));
    expect([path, response.status]).toEqual([path, 404]);
    expect(await response.json()).toMatchObject({ error: {} });
  }
  const unknown = await handle(post("/api/calculations/none", "{}"));
  expect(unknown.status).toBe(404);
  expect(await issuesOf(unknown)).toEqual([
    { field: "name", value: "none", accepted: "one of: root" },
  ]);
  expect((await handle(get("/api/trials/7/events"))).status).toBe(422);
  expect((await handle(get(`${events}?after=-1`))).status).toBe(422);
});

test("computes, says what is wrong, says when there is no answer", async () => {
  const { handle } = await memoryServer();
  const ask = async (x: unknown) => handle(post("/api/calculations/root", { x }));
  expect(await (await ask(9)).json()).toMatchObject({ kind: "answer", result: { root: 3 } });
  expect(await (await ask(-1)).json()).toMatchObject({
    kind: "no-answer",
    reason: "below-minimum",
  });
  expect((await ask("nine")).status).toBe(422);
});

test("describes itself in OpenAPI 3.1", async () => {
  const { handle } = await memoryServer();
  const document = (await (await handle(get("/api/openapi.json"))).json()) as {
    openapi: string;
    paths: Record<string, { post?: { requestBody: { content: object } } }>;
  };
  expect(document.openapi).toBe("3.1.0");
  expect(document.paths["/api/calculations/root"]?.post?.requestBody.content).toMatchObject({
    "application/json": { schema: { type: "object", properties: { x: { type: "number" } } } },
  });
  const list = await handle(get("/api/calculations"));
  expect(await list.json()).toMatchObject({
    calculations: [{ name: "root", sources: ["arithmetic"] }],
  });
});

test("a fault of our own is told to the log, not to the client", async () => {
  const { handle, faults } = await memoryServer({
    compute: () => {
      throw new RangeError("secret detail");
    },
  });
  const response = await handle(post("/api/calculations/root", { x: 1 }));
  expect(response.status).toBe(500);
  expect(await response.text()).not.toContain("secret");
  expect(faults).toHaveLength(1);
});

test("says that too much is being worked out, rather than a fault", async () => {
  const busy = () => Promise.reject(new Busy("busy"));
  const { handle, faults } = await memoryServer({ compute: busy, report: busy });
  await handle(post(events, { events: [note(1)] }));
  for (const request of [
    post("/api/calculations/root", { x: 4 }),
    get(`/api/trials/${trialId(1)}/report`),
  ]) {
    const answer = await handle(request);
    expect(answer.status).toBe(503);
    expect(await answer.json()).toMatchObject({ error: { kind: "busy" } });
  }
  expect(faults).toEqual([]);
});

test("a log too long for one answer comes in several, each event once and in order", async () => {
  const { handle, store } = await memoryServer();
  const count = 20_001;
  await store.append(Array.from({ length: count }, (_, i) => note(i)));
  const ids: string[] = [];
  const answers: unknown[] = [];
  for (let after = 0, more = true; more;) {
    const answer = await handle(get(`${events}?after=${after}`));
    const log = (await answer.json()) as { events: { id: string }[]; cursor: number; more?: true };
    ids.push(...log.events.map(({ id }) => id));
    answers.push({ cursor: log.cursor, more: log.more });
    [after, more] = [log.cursor, log.more === true];
  }
  expect(answers).toEqual([{ cursor: 20_000, more: true }, { cursor: count }]);
  expect(ids).toEqual(Array.from({ length: count }, (_, i) => eventId(i)));
});
