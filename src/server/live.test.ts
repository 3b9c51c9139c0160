import { expect, test } from "vitest";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { sharedServer } from "../../test/doors/shared-server.ts";

/** Reads server-sent events until there are `count` of them. */
async function told(response: Response, count: number): Promise<unknown[]> {
  const found: unknown[] = [];
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  while (reader && found.length < count) {
    const { value = "", done } = await reader.read();
    for (const [, data = ""] of value.matchAll(/^event: appended\ndata: (.*)$/gm)) {
      found.push(JSON.parse(data));
    }
    if (done) break;
  }
  await reader?.cancel();
  return found;
}

test("a second screen is told of its own workspace only, and of one trial if it asks so", async () => {
  const server = await sharedServer();
  const [a, b] = [await server.shop("a"), await server.shop("b")];
  const live = (query: string) => server.ask("GET", `/api/live${query}`, { key: a.owner });
  const [all, one] = [await live(""), await live(`?trial=${trialId(2)}`)];
  expect(all.headers.get("content-type")).toBe("text/event-stream");
  await server.store.in(b.id).append([note(1)]);
  await server.store.in(a.id).append([note(1), note(2)]);
  await server.store.in(a.id).append([note(3, { trial: 2 })]);
  const first = { trial: trialId(1), cursor: 2 };
  const second = { trial: trialId(2), cursor: 1 };
  expect(await told(all, 2)).toEqual([first, second]);
  expect(await told(one, 1)).toEqual([second]);
});

test("of what a slow reader missed, the newest cursor is left", async () => {
  const server = await sharedServer();
  const { id, owner } = await server.shop("a");
  const live = await server.ask("GET", "/api/live", { key: owner });
  for (let i = 0; i < 500; i++) await server.store.in(id).append([note(i)]);
  const found = await told(live, 1);
  expect(found).toEqual([{ trial: trialId(1), cursor: 500 }]);
});

test("connections are counted and given back", async () => {
  const server = await sharedServer();
  const { owner } = await server.shop("a");
  const open: Response[] = [];
  for (let i = 0; i < 9; i++) open.push(await server.ask("GET", "/api/live", { key: owner }));
  expect(open.map(({ status }) => status)).toEqual([...Array<number>(8).fill(200), 429]);
  for (const { body } of open) await body?.cancel();
  expect((await server.ask("GET", "/api/live", { key: owner })).status).toBe(200);
});
