import { createServer } from "node:net";
import { once } from "node:events";
import { expect, test } from "vitest";
import { listen } from "./index.ts";

const handle = () => Promise.resolve(new Response("here"));

async function takenPort() {
  const holder = createServer().listen(0, "127.0.0.1");
  await once(holder, "listening");
  const address = holder.address();
  if (address === null || typeof address === "string") throw new Error("no port");
  return { port: address.port, holder };
}

test("a taken port: the next free one, unless exactly that one was asked for", async () => {
  const { port, holder } = await takenPort();
  expect(await listen(handle, { port, exact: true })).toEqual({
    kind: "refused",
    reason: "port-taken",
    port,
  });
  const other = await listen(handle, { port, exact: false });
  if (other.kind !== "listening") throw new Error(other.reason);
  expect(other.port).toBeGreaterThan(port);
  expect(await (await fetch(other.url)).text()).toBe("here");
  await other.stop();
  holder.close();
});

test("stops although a browser keeps its connection open", async () => {
  const server = await listen(handle, { port: 0, exact: true });
  if (server.kind !== "listening") throw new Error(server.reason);
  await (await fetch(server.url, { headers: { connection: "keep-alive" } })).text();
  await server.stop();
  await expect(fetch(server.url)).rejects.toThrow();
});
