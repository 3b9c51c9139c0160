import { expect, test } from "vitest";
import { base, get } from "../../test/doors/memory-server.ts";
import { plainCalculation } from "../../test/doors/plain-calculation.ts";
import { note, trialId } from "../../test/doors/sample-events.ts";
import {
  operatorSecret,
  sharedServer,
  shopAddress,
  stranger,
} from "../../test/doors/shared-server.ts";
import { apiRoutes } from "./routes.ts";
import type { Role } from "../store/index.ts";

type Server = Awaited<ReturnType<typeof sharedServer>>;

/** Every route, with a path that could be asked and a body that would be taken. */
function walk({ store, faults }: Server, device = "none") {
  const routes = apiRoutes({
    store,
    ...plainCalculation,
    report: () => Promise.resolve(""),
    site: new Map(),
    onFault: (error) => faults.push(error),
  });
  return routes.map(({ method, path, needs }) => ({
    method: method.toUpperCase(),
    path: path.replace(":trial", trialId(1)).replace(":name", "root").replace(":id", device),
    needs,
    body: bodyFor(path),
  }));
}

function bodyFor(path: string): unknown {
  if (path.endsWith("/events")) return { events: [note(77)] };
  if (path.endsWith("/import")) {
    return { format: "coldproof-trial", version: 1, trial: trialId(1), events: [note(78)] };
  }
  if (path.startsWith("/api/calculations/")) return { x: 4 };
  if (path === "/api/pairings") return { role: "viewer" };
  return path === "/api/workspaces" ? { name: "another" } : { code: "0000-0000-0000" };
}
const bodyOf = ({ method, body }: { method: string; body: unknown }) =>
  method === "POST" ? { body } : {};
/** Closes what would go on for ever. */
const statusOf = async (response: Response) => {
  await response.body?.cancel();
  return response.status;
};

test("every route but one refuses without a key and with a wrong one, and does nothing", async () => {
  const server = await sharedServer();
  const { id, owner } = await server.shop("a");
  await server.store.in(id).append([note(1)]);
  const routes = walk(server);
  expect(routes.length).toBeGreaterThan(14);
  const open = routes.filter(({ needs }) => needs === "stranger").map(({ path }) => path);
  expect(open).toEqual(["/api/pairings/redeem"]);
  for (const [i, route] of routes.entries()) {
    if (route.needs === "stranger") continue;
    const peer = { address: `198.51.100.${i}` };
    for (const key of [undefined, "wrong", `${owner}x`, operatorSecret.slice(1)]) {
      const sent = { ...bodyOf(route), ...(key === undefined ? {} : { key }), peer };
      const answer = await server.ask(route.method, route.path, sent);
      expect([route.path, key, answer.status]).toEqual([route.path, key, 401]);
      expect(await answer.json()).toMatchObject({ error: { kind: "no-key" } });
    }
  }
  expect(await statusOf(await server.ask("GET", "/api/none"))).toBe(401);
  expect((await server.store.in(id).read(trialId(1))).cursor).toBe(1);
  expect(await server.store.access.devices(id)).toHaveLength(1);
  expect(server.faults).toEqual([]);
});

test("a role opens what it should and no more", async () => {
  const server = await sharedServer();
  const { id } = await server.shop("a");
  const rank = { viewer: 0, tester: 1, owner: 2 };
  for (const role of ["viewer", "tester", "owner"] as const) {
    const { key } = await server.pair(id, role);
    for (const route of walk(server)) {
      if (route.needs === "stranger" || route.needs === "operator") continue;
      const status = await statusOf(
        await server.ask(route.method, route.path, { key, ...bodyOf(route) }),
      );
      const refused = rank[role] < rank[route.needs];
      expect([role, route.path, status === 403]).toEqual([role, route.path, refused]);
      expect(status).not.toBe(401);
    }
  }
  expect(
    await statusOf(
      await server.ask("POST", "/api/workspaces", { key: operatorSecret, body: { name: "b" } }),
    ),
  ).toBe(201);
  const { key } = await server.pair(id, "owner");
  expect(
    await statusOf(await server.ask("POST", "/api/workspaces", { key, body: { name: "b" } })),
  ).toBe(401);
});

test("no route of one workspace shows or changes anything of another", async () => {
  const server = await sharedServer();
  const [a, b] = [await server.shop("alpha"), await server.shop("beta")];
  const secret = "only alpha knows this";
  await server.store.in(a.id).append([note(1, { text: secret }), note(2, { trial: 2 })]);
  const before = await server.store.in(a.id).read(trialId(1));
  for (const route of walk(server, a.ownerDevice)) {
    if (route.needs === "operator" || route.path === "/api/live") continue;
    const answer = await server.ask(route.method, route.path, { key: b.owner, ...bodyOf(route) });
    const text = await answer.text();
    expect(text).not.toContain(secret);
    expect(text).not.toContain(a.id);
    expect(text).not.toContain("alpha");
    // What is not there and what is another's look the same.
    if (/export|report|devices\//.test(route.path)) expect([404, 200]).toContain(answer.status);
  }
  expect(await server.store.in(a.id).read(trialId(1))).toEqual(before);
  expect((await server.store.access.devices(a.id))[0]?.revoked).toBeNull();
  // The same id with other content is no conflict: not even its existence is told.
  const own = await server.ask("POST", `/api/trials/${trialId(1)}/events`, {
    key: b.owner,
    body: { events: [note(1, { text: "beta's" })] },
  });
  expect(await own.json()).toEqual({ accepted: [note(1).id], duplicates: [] });
  const list = await server.ask("GET", "/api/trials", { key: b.owner });
  expect(JSON.stringify(await list.json())).not.toContain(trialId(2));
});

test("a code pairs one device within ten minutes; its key is told once and kept nowhere", async () => {
  const server = await sharedServer();
  const { id, owner } = await server.shop("a");
  const made = await server.ask("POST", "/api/pairings", { key: owner, body: { role: "tester" } });
  const { code, expires, url } = (await made.json()) as Record<string, string>;
  expect(url).toBe(`${shopAddress}/#/pair/${code ?? ""}`);
  expect(expires).toBe("2026-06-14T08:10:00.000Z");
  const typed = (code ?? "").toLowerCase().replaceAll("-", " ");
  const redeem = () =>
    server.ask("POST", "/api/pairings/redeem", { body: { code: typed, device: "phone" } });
  const { key, ...rest } = (await (await redeem()).json()) as Record<string, string>;
  expect(rest).toMatchObject({ workspace: id, role: "tester", device: { name: "phone" } });
  expect(Buffer.from(key ?? "", "base64url")).toHaveLength(32);
  expect((await redeem()).status).toBe(404);
  const access = await server.ask("GET", "/api/access", { key: key ?? "" });
  expect(await access.json()).toMatchObject({ mode: "shared", workspace: id, role: "tester" });
  expect(JSON.stringify(await server.store.access.devices(id))).not.toContain(key);

  const late = await server.ask("POST", "/api/pairings", { key: owner, body: { role: "tester" } });
  server.clock.now += 10 * 60_000;
  const { code: old } = (await late.json()) as Record<string, string>;
  const answer = await server.ask("POST", "/api/pairings/redeem", { body: { code: old } });
  expect(answer.status).toBe(404);
});

test("a revoked device is out at once, and the last owner stays", async () => {
  const server = await sharedServer();
  const { id, owner, ownerDevice } = await server.shop("a");
  const phone = await server.pair(id, "tester");
  const live = await server.ask("GET", "/api/live", { key: phone.key });
  const reader = live.body?.getReader();
  await reader?.read();
  expect(await statusOf(await server.ask("GET", "/api/trials", { key: phone.key }))).toBe(200);
  const path = `/api/devices/${phone.device.id}`;
  expect(await statusOf(await server.ask("DELETE", path, { key: owner }))).toBe(200);
  expect(await statusOf(await server.ask("GET", "/api/trials", { key: phone.key }))).toBe(401);
  expect((await reader?.read())?.done).toBe(true);
  expect(
    await statusOf(await server.ask("DELETE", `/api/devices/${ownerDevice}`, { key: owner })),
  ).toBe(409);
  expect(await statusOf(await server.ask("DELETE", "/api/devices/none", { key: owner }))).toBe(404);
});

test("an owner sees when each device last asked for something", async () => {
  const server = await sharedServer();
  const { id, owner } = await server.shop("a");
  const phone = await server.pair(id, "tester");
  const listed = async () => {
    const answer = await server.ask("GET", "/api/devices", { key: owner });
    const { devices } = (await answer.json()) as { devices: { id: string; lastSeen: string }[] };
    return devices.find((one) => one.id === phone.device.id)?.lastSeen;
  };
  expect(await listed()).toBeNull();
  server.clock.now += 90_000;
  await server.ask("GET", "/api/trials", { key: phone.key });
  const at = new Date(server.clock.now).toISOString();
  server.clock.now += 90_000;
  expect(await listed()).toBe(at);
});

test("guessing is slowed down by address, also behind a proxy; a device by its key", async () => {
  const guess = (server: Server, headers: Record<string, string> = {}) => {
    const init = {
      method: "POST",
      headers: { "content-type": "application/json", ...headers },
      body: JSON.stringify({ code: "1234-5678-9ABC" }),
    };
    return server
      .handle(new Request(`${shopAddress}/api/pairings/redeem`, init), stranger)
      .then(({ status }) => status);
  };
  const server = await sharedServer();
  const statuses: number[] = [];
  for (let i = 0; i < 40; i++)
    statuses.push(await guess(server, { "x-forwarded-for": `10.0.0.${i}` }));
  expect(statuses.filter((status) => status === 404)).toHaveLength(20);
  expect(statuses.at(-1)).toBe(429);
  server.clock.now += 60_000;
  expect(await guess(server)).toBe(404);

  const proxied = await sharedServer({ behindProxy: true });
  for (let i = 0; i < 30; i++) await guess(proxied, { "x-forwarded-for": "10.9.9.9, 10.0.0.1" });
  expect(await guess(proxied, { "x-forwarded-for": "10.7.7.7, 10.0.0.1" })).toBe(429);
  expect(await guess(proxied, { "x-forwarded-for": "10.9.9.9, 10.0.0.2" })).toBe(404);

  const { owner } = await server.shop("a");
  const asked: number[] = [];
  for (let i = 0; i < 310; i++)
    asked.push(await statusOf(await server.ask("GET", "/api/access", { key: owner })));
  expect(asked.indexOf(429)).toBe(300);
  server.clock.now += 1000;
  expect(await statusOf(await server.ask("GET", "/api/access", { key: owner }))).toBe(200);
});

test("this machine's own user needs no key where that is the rule, and nobody else is taken for him", async () => {
  const server = await sharedServer({ trustLoopback: true, names: ["192.0.2.7"] });
  const from = async (request: Request, address?: string) =>
    statusOf(await server.handle(request, address === undefined ? undefined : { address }));
  expect(await from(get("/api/trials"), "127.0.0.1")).toBe(200);
  expect(await from(get("/api/trials"), "::1")).toBe(200);
  expect(await from(get("/api/trials"), "::ffff:127.0.0.1")).toBe(200);
  expect(await from(get("/api/trials"))).toBe(401);
  expect(await from(get("/api/trials"), "192.0.2.9")).toBe(401);
  expect(await from(get("/api/trials"), "127.0.0.1.example")).toBe(401);
  const passedOn = { "x-forwarded-for": "192.0.2.9" };
  expect(await from(get("/api/trials", passedOn), "127.0.0.1")).toBe(401);
  const byName = new Request("http://192.0.2.7:4780/api/trials");
  expect(await from(byName, "127.0.0.1")).toBe(401);
  const strict = await sharedServer({ trustLoopback: false });
  expect((await strict.handle(get("/api/trials"), { address: "127.0.0.1" })).status).toBe(401);
  expect(base).toContain("127.0.0.1");
});

test("every small body has a small limit", async () => {
  const server = await sharedServer();
  const { owner } = await server.shop("a");
  const body = { role: "tester" as Role, name: "x".repeat(20_000) };
  expect(await statusOf(await server.ask("POST", "/api/pairings", { key: owner, body }))).toBe(413);
});
