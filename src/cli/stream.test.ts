import { expect, test } from "vitest";
import { terminal } from "../../test/doors/terminal.ts";
import { sampleOf } from "./samples.ts";

const now = "2026-06-14T08:41:00.000Z";
const where = ["stream", "--trial", "7a11a5ed", "--stream", "0198c0de"];

interface Sent {
  readonly url: string;
  readonly key: string | null;
  readonly samples: readonly unknown[];
  readonly batch: string;
}

/** A server that answers with these statuses in turn, then with 200. */
function server(...statuses: readonly number[]) {
  const sent: Sent[] = [];
  const left = [...statuses];
  const http = async (request: Request): Promise<Response> => {
    const body = (await request.json()) as Pick<Sent, "samples" | "batch">;
    sent.push({ url: request.url, key: request.headers.get("authorization"), ...body });
    const status = left.shift() ?? 200;
    if (status === 0) throw new TypeError("no network");
    return new Response('{"error":{"kind":"said"}}', { status });
  };
  return { sent, http };
}

test.each([
  ['{"at":"2026-06-14T10:41:00+02:00","values":[7.1,null]}', { at: now, values: [7.1, null] }],
  ["[7.1, 31]", { at: now, values: [7.1, 31] }],
  ["2026-06-14 08:41:00Z,7.1,", { at: now, values: [7.1, null] }],
  ["7,1;31", { at: now, values: [7.1, 31] }],
])("the line %s is a sample", (line, sample) => {
  expect(sampleOf(line, false, now)).toEqual({ kind: "sample", sample });
});

test.each(["{", '{"at":"noon","values":[1]}', '{"values":["7"]}', "7.1,broken", "{}"])(
  "the line %s is left out",
  (line) => {
    expect(sampleOf(line, false, now).kind).toBe("invalid");
  },
);

test("headings, comments and empty lines are no samples", () => {
  expect(sampleOf("time,vent", true, now).kind).toBe("aside");
  expect(sampleOf("# logger 3", false, now).kind).toBe("aside");
  expect(sampleOf("", false, now).kind).toBe("aside");
});

test("lines become batches under the device's key", async () => {
  const { sent, http } = server();
  const input = ["vent,low\n7.1,31\n7.2,31\nwrong,31\n7,30\n"];
  // The batch's time never runs out here: all of it is one batch.
  const pause = () => new Promise<void>(() => undefined);
  const { code, out, err } = await terminal([...where, "--key", "k", "--server", "http://bay:1/"], {
    input,
    http,
    pause,
  });
  expect([code, out]).toEqual([0, "3 samples in 1 batches are in the log.\n"]);
  expect(err).toContain("line 4 was left out");
  expect(sent[0]).toMatchObject({
    url: "http://bay:1/api/trials/7a11a5ed/streams/0198c0de/samples",
    key: "Bearer k",
  });
});

test("a batch keeps its number until the server has it", async () => {
  const { sent, http } = server(0, 503, 429);
  const { code } = await terminal(where, { input: ["7\n"], http });
  expect(code).toBe(0);
  expect(sent).toHaveLength(4);
  expect(new Set(sent.map(({ batch }) => batch)).size).toBe(1);
});

test.each([
  [401, "wants a key"],
  [404, "refuses the samples (404)"],
  [422, "refuses the samples (422)"],
])("at %i it stops and says why", async (status, words) => {
  const { sent, http } = server(status);
  const { code, err } = await terminal(where, { input: ["7\n"], http });
  expect([code, sent.length]).toEqual([1, 1]);
  expect(err).toContain(words);
});

test("a server that stays away is given up after a while, with what was not sent", async () => {
  let time = 0;
  const { code, err } = await terminal(where, {
    input: ["7\n"],
    http: () => Promise.reject(new TypeError("no network")),
    now: () => (time += 100_000),
  });
  expect(code).toBe(1);
  expect(err).toContain("1 samples of the last batch were not sent");
});
