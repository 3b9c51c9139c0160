import { type Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { hashOfSecret, homeWorkspace, type Role, StoreUnavailable } from "../store/index.ts";
import { refusal } from "./answers.ts";
import { Busy } from "./aside.ts";
import type { Peer, ServerDeps } from "./deps.ts";
import { onlyNames, onlyOwnWrites, strictHeaders } from "./guard.ts";
import { type Asker, bearerOf, identifier, tooMany } from "./identify.ts";
import { apiRoutes, type OpenRoute, type Route } from "./routes.ts";
import { siteAnswer } from "./site.ts";

/** Answers a request; without a peer nobody is taken to sit at this machine. */
export type Handle = (request: Request, peer?: Peer) => Promise<Response>;

const rank: Readonly<Record<Role, number>> = { viewer: 0, tester: 1, owner: 2 };

/**
 * The server as one function from request to response. Opens no socket.
 *
 * Bad input never gives a 5xx: 422 with issues, 413 when too large, 404 for what does not exist, 401
 * without a key, 403 for other sites and for what a role may not, 409 for a conflict in the log, 429 when
 * it is too much; 503 when the disk did not take an event, the database is away, or too much is being worked out.
 */
export function createApp(deps: ServerDeps): Handle {
  const app = new Hono<{ Bindings: { peer?: Peer } }>();
  app.use(strictHeaders, onlyNames(deps.sharing?.names ?? []), onlyOwnWrites);
  const doorkeeper = doorkeeperOf(deps);
  for (const route of apiRoutes(deps)) {
    app.on(
      route.method.toUpperCase(),
      route.path,
      async (c, next) => (await doorkeeper.stop(route, c)) ?? next(),
      limited(route.largest),
      (c) => doorkeeper.answer(route, c),
    );
  }
  app.all("/api/*", async (c) => {
    const who = await doorkeeper.identify(c.req.raw, peerOf(c));
    return who.kind === "refused" ? who.answer : nothingHere();
  });
  app.get("*", (c) => siteAnswer(deps.site, c.req.raw) ?? c.notFound());
  app.notFound(nothingHere);
  app.onError((error, c) => {
    if (error instanceof StoreUnavailable) {
      return refusal(503, error.message, "the log cannot be reached now; try again later");
    }
    if (error instanceof Busy) {
      return refusal(503, error.message, "too much is being worked out now; try again later");
    }
    deps.onFault(error, `${c.req.method} ${c.req.path}`);
    return refusal(500, "fault", "the server has a fault; the log is as it was");
  });
  return async (request, peer) => app.fetch(request, peer === undefined ? {} : { peer });
}

const nothingHere = () => refusal(404, "unknown-route", "there is nothing at this address");

function peerOf(c: Context): Peer | undefined {
  return (c.env as { peer?: Peer } | undefined)?.peer;
}

function limited(maxSize: number) {
  const size = maxSize < 2 ** 20 ? `${maxSize / 2 ** 10} kB` : `${maxSize / 2 ** 20} MB`;
  const message = `the body may have at most ${size}; send it in parts`;
  return bodyLimit({ maxSize, onError: () => refusal(413, "too-large", message) });
}

function isOpen(route: Route): route is OpenRoute {
  return route.needs === "stranger" || route.needs === "operator";
}

/** Lets through whom a route is for; every route passes here, and nothing of the body is read before. */
function doorkeeperOf({ store, sharing, now = Date.now }: ServerDeps) {
  const { identify, allowStranger } = identifier(store, sharing, now);
  const asked = new WeakMap<Context, Asker>();

  const isOperator = (request: Request): boolean => {
    const secret = bearerOf(request);
    return secret !== undefined && hashOfSecret(secret) === sharing?.operatorHash;
  };
  /** The refusal, or undefined for whom it is for. */
  const stop = async (route: Route, c: Context): Promise<Response | undefined> => {
    const peer = peerOf(c);
    if (isOpen(route)) {
      if (route.needs === "operator" && isOperator(c.req.raw)) return undefined;
      if (!allowStranger(c.req.raw, peer)) return tooMany();
      if (route.needs === "stranger") return undefined;
      return refusal(401, "no-key", "only the operator of a shared server, with its secret");
    }
    const who = await identify(c.req.raw, peer);
    if (who.kind === "refused") return who.answer;
    if (rank[who.asker.role] < rank[route.needs]) {
      return refusal(403, "not-allowed", `this needs the role ${route.needs}`);
    }
    asked.set(c, who.asker);
    return undefined;
  };
  const answer = (route: Route, c: Context): Response | Promise<Response> => {
    if (isOpen(route)) return route.answer(c);
    const asker = asked.get(c);
    if (asker === undefined) throw new Error(`${route.path} was reached past its door`);
    const log = asker.workspace === homeWorkspace ? store : store.in(asker.workspace);
    return route.answer({ c, asker, log });
  };
  return { stop, answer, identify };
}
