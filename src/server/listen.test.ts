import { once } from "node:events";
import type { IncomingMessage } from "node:http";
import { request } from "node:https";
import { createServer } from "node:net";
import { text } from "node:stream/consumers";
import { expect, test } from "vitest";
import { testCertificate } from "../../test/doors/https/certificate.ts";
import { sharedServer } from "../../test/doors/shared-server.ts";
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

test("serves https with a certificate, and nothing to plain http on that port", async () => {
  const { cert, key } = testCertificate;
  const { handle: shared, shop } = await sharedServer();
  const { owner } = await shop("a");
  const server = await listen(shared, { port: 0, exact: true, tls: { cert, key } });
  if (server.kind !== "listening") throw new Error(server.reason);
  expect(server.url).toBe(`https://127.0.0.1:${server.port}`);
  // The certificate is the only one that is trusted here, and it has to name the host.
  const asked = request(`https://localhost:${server.port}/api/devices`, {
    ca: cert,
    headers: { authorization: `Bearer ${owner}` },
  }).end();
  const [answer] = (await once(asked, "response")) as [IncomingMessage];
  expect(answer.statusCode).toBe(200);
  expect(JSON.parse(await text(answer))).toMatchObject({ devices: [{ role: "owner" }] });
  await expect(fetch(`http://127.0.0.1:${server.port}/`)).rejects.toThrow();
  await server.stop();
});

test("stops although a browser keeps its connection open", async () => {
  const server = await listen(handle, { port: 0, exact: true });
  if (server.kind !== "listening") throw new Error(server.reason);
  await (await fetch(server.url, { headers: { connection: "keep-alive" } })).text();
  await server.stop();
  await expect(fetch(server.url)).rejects.toThrow();
});
