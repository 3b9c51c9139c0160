import { expect, test } from "vitest";
import { get, memoryServer, post } from "../../test/doors/memory-server.ts";
import { eventId, note, trialId } from "../../test/doors/sample-events.ts";

const trial = trialId(1);
const stream = eventId(7);
const opened = {
  ...note(7),
  type: "stream-opened",
  body: {
    stage: "run",
    name: "Bay logger",
    columns: [
      { column: "vent", quantity: "vent-temperature", unit: "°C" },
      { column: "low", quantity: "low-side", unit: "psig" },
    ],
  },
};
const path = (id = stream): string => `/api/trials/${trial}/streams/${id}/samples`;
const batch = "0198c0de-1234-7abc-8000-00000000000a";
const samples = [
  { at: "2026-06-14T08:41:00Z", values: [7.1, 31] },
  { at: "2026-06-14T08:41:01Z", values: [7, null] },
];

async function house() {
  const server = await memoryServer();
  await server.handle(post(`/api/trials/${trial}/events`, { events: [opened] }));
  const eventsOf = async (): Promise<{ id: string; at: string; body: unknown }[]> => {
    const answer = await server.handle(get(`/api/trials/${trial}/events?after=1`));
    return ((await answer.json()) as { events: { id: string; at: string; body: unknown }[] })
      .events;
  };
  return { ...server, eventsOf };
}

test("a batch becomes one event, once, however often it is sent", async () => {
  const { handle, eventsOf } = await house();
  const first = await handle(post(path(), { samples, batch }));
  expect(await first.json()).toEqual({ accepted: [batch], duplicates: [], batch, samples: 2 });
  const again = await handle(post(path(), { samples, batch }));
  expect(await again.json()).toMatchObject({ accepted: [], duplicates: [batch] });
  const other = await handle(post(path(), { samples: samples.slice(1), batch }));
  expect(other.status).toBe(409);
  const [event, ...more] = await eventsOf();
  expect(more).toEqual([]);
  expect(event).toMatchObject({ id: batch, body: { stream, samples } });
  // The instant is the one in the batch's own number, so that a retry is the same event.
  expect(Date.parse(event?.at ?? "")).toBe(0x0198c0de1234);
});

test("without a number of its own a batch is given one", async () => {
  const { handle, eventsOf } = await house();
  const answer = await handle(post(path(), { samples }));
  expect(answer.status).toBe(200);
  expect(await eventsOf()).toHaveLength(1);
});

test("what does not fit the stream is refused with the place", async () => {
  const { handle, eventsOf } = await house();
  const refused = async (body: unknown, at = path()) => {
    const answer = await handle(post(at, body));
    const { issues = [], error } = (await answer.json()) as {
      issues?: { field: string }[];
      error?: { kind: string };
    };
    return [answer.status, issues[0]?.field ?? error?.kind];
  };
  expect(await refused({ samples: [samples[0], { at: samples[1]?.at, values: [1] }] })).toEqual([
    422,
    "samples.1.values",
  ]);
  expect(await refused({ samples: [{ at: "noon", values: [1, 2] }] })).toEqual([
    422,
    "samples.0.at",
  ]);
  expect(await refused({ samples: [] })).toEqual([422, "body"]);
  expect(await refused({ samples, batch: "7" })).toEqual([422, "body"]);
  expect(await refused("{")).toEqual([422, "body"]);
  expect(await refused({ samples }, path(eventId(8)))).toEqual([404, "unknown-stream"]);
  expect(await refused({ samples }, path("x"))).toEqual([422, "stream"]);
  expect(await eventsOf()).toEqual([]);
});

test("a stream that is opened later is found", async () => {
  const { handle } = await house();
  const later = eventId(9);
  expect((await handle(post(path(later), { samples }))).status).toBe(404);
  await handle(post(`/api/trials/${trial}/events`, { events: [{ ...opened, id: later }] }));
  expect((await handle(post(path(later), { samples }))).status).toBe(200);
});
