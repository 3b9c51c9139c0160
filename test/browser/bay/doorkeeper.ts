type Handle = (request: Request) => Promise<Response>;
type Role = "owner" | "tester" | "viewer";
interface Device {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly key: string;
}

/** A server that asks for keys, in its plainest form: one workspace, codes that open once, news of what is appended. */
export interface Doorkeeper {
  readonly handle: Handle;
  /** A code that pairs one device. */
  offer(role: Role): string;
  /** How many devices listen to the news. */
  listening(): number;
}

const refusal = (status: number, kind: string) =>
  Response.json({ error: { kind, message: kind } }, { status });

export function doorkeeper(inner: Handle, address: () => string): Doorkeeper {
  const devices = new Map<string, Device>();
  const offers = new Map<string, Role>();
  const listeners = new Set<ReadableStreamDefaultController<Uint8Array>>();
  let number = 0;

  const offer = (role: Role): string => {
    const code = `CODE-${String(++number).padStart(4, "0")}-ABCD`;
    offers.set(code, role);
    return code;
  };
  const redeem = async (request: Request): Promise<Response> => {
    const { code, device: name } = (await request.json()) as { code: string; device: string };
    const role = offers.get(code);
    if (!role) return refusal(404, "unknown-code");
    offers.delete(code);
    const device = { id: `device-${++number}`, name, role, key: `key-${crypto.randomUUID()}` };
    devices.set(device.key, device);
    const { key, id } = device;
    return Response.json({
      key,
      workspace: "w1",
      workspaceName: "Hill Town",
      role,
      device: { id, name },
    });
  };
  const live = (): Response => {
    let mine: ReadableStreamDefaultController<Uint8Array> | undefined;
    const body = new ReadableStream<Uint8Array>({
      start: (controller) => {
        mine = controller;
        listeners.add(controller);
        controller.enqueue(new TextEncoder().encode(": still here\n\n"));
      },
      cancel: () => {
        if (mine) listeners.delete(mine);
      },
    });
    return new Response(body, { headers: { "content-type": "text/event-stream" } });
  };
  const forMember = async (request: Request, path: string, device: Device): Promise<Response> => {
    const { id, name, role } = device;
    if (path === "/api/access") {
      return Response.json({
        mode: "shared",
        workspace: "w1",
        workspaceName: "Hill Town",
        role,
        device: { id, name },
      });
    }
    if (path === "/api/live") return live();
    if (path === "/api/pairings" || path.startsWith("/api/devices")) {
      if (role !== "owner") return refusal(403, "not-allowed");
      return forOwner(request, path);
    }
    if (role === "viewer" && request.method !== "GET") return refusal(403, "not-allowed");
    if (path === "/api/trials") {
      const list = (await (await inner(request)).json()) as object;
      return Response.json({ ...list, workspace: "w1" });
    }
    const answer = await inner(request);
    if (request.method === "POST" && answer.ok) {
      const news = new TextEncoder().encode("event: appended\ndata: {}\n\n");
      for (const listener of listeners) listener.enqueue(news);
    }
    return answer;
  };
  const forOwner = async (request: Request, path: string): Promise<Response> => {
    if (request.method === "POST") {
      const { role } = (await request.json()) as { role: Role };
      const code = offer(role);
      const expires = new Date(Date.now() + 600_000).toISOString();
      return Response.json({ code, expires, url: `${address()}/#/pair/${code}` }, { status: 201 });
    }
    if (request.method === "DELETE") {
      const gone = [...devices.values()].find(({ id }) => path.endsWith(id));
      if (gone) devices.delete(gone.key);
      return Response.json({ revoked: gone?.id });
    }
    const list = [...devices.values()].map(({ id, name, role }) => ({
      id,
      name,
      role,
      revoked: null,
    }));
    return Response.json({ devices: list });
  };
  return {
    offer,
    listening: () => listeners.size,
    handle: async (request) => {
      const path = new URL(request.url).pathname;
      if (!path.startsWith("/api/")) return inner(request);
      if (path === "/api/pairings/redeem") return redeem(request);
      const key = request.headers.get("authorization")?.replace("Bearer ", "") ?? "";
      const device = devices.get(key);
      return device ? forMember(request, path, device) : refusal(401, "no-key");
    },
  };
}
