import { type Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { z } from "zod";
import { parseJson } from "../wire/index.ts";
import { invalid, refusal } from "./answers.ts";
import type { ServerDeps } from "./deps.ts";
import { onlyOwnName, onlyOwnWrites, strictHeaders } from "./guard.ts";
import { openApiDocument } from "./openapi.ts";
import { siteAnswer } from "./site.ts";
import { sampleTaker } from "./streams.ts";
import { appendEvents, exportAnswer, importTrial, readEvents, reportAnswer } from "./trials.ts";

/** Largest body of a batch or an import, and of a calculation's input, bytes. */
const largestBatch = 16 * 2 ** 20;
const largestInput = 2 ** 20;

/**
 * The server as one function from request to response. Opens no socket, reads no clock.
 *
 * Bad input never gives a 5xx: 422 with issues, 413 when too large, 404 for what does not exist, 403 for
 * other sites, 409 for a conflict in the log; 503 when the disk did not take an event.
 */
export function createApp(deps: ServerDeps): (request: Request) => Promise<Response> {
  const app = new Hono();
  app.use(strictHeaders, onlyOwnName, onlyOwnWrites);
  routeTrials(app, deps);
  routeCalculations(app, deps);
  app.all("/api/*", () => refusal(404, "unknown-route", "there is nothing at this address"));
  app.get("*", (c) => siteAnswer(deps.site, c.req.raw) ?? c.notFound());
  app.notFound(() => refusal(404, "unknown-route", "there is nothing at this address"));
  app.onError((error, c) => {
    deps.onFault(error, `${c.req.method} ${c.req.path}`);
    return refusal(500, "fault", "the server has a fault; the log is as it was");
  });
  return async (request) => app.fetch(request);
}

function limited(maxSize: number) {
  const message = `the body may have at most ${maxSize / 2 ** 20} MB; send it in parts`;
  return bodyLimit({ maxSize, onError: () => refusal(413, "too-large", message) });
}

function routeTrials(app: Hono, deps: ServerDeps): void {
  const { store } = deps;
  /** Runs a handler for a well-formed trial id. */
  const withTrial = (handle: (trial: string, c: Context) => Promise<Response>) => (c: Context) => {
    const trial = z.uuid().safeParse(c.req.param("trial"));
    if (trial.success) return handle(trial.data, c);
    const issue = { field: "trial", value: c.req.param("trial"), accepted: "a trial's id (UUID)" };
    return Promise.resolve(invalid([issue]));
  };

  app.get("/api/trials", async () => Response.json({ trials: await store.trials() }));
  app.post("/api/trials/import", limited(4 * largestBatch), async (c) =>
    importTrial(deps, await c.req.text()),
  );
  app.get(
    "/api/trials/:trial/events",
    withTrial((trial, c) => readEvents(store, trial, c.req.query("after"))),
  );
  app.post(
    "/api/trials/:trial/events",
    limited(largestBatch),
    withTrial(async (trial, c) => appendEvents(store, trial, await c.req.text())),
  );
  const takeSamples = sampleTaker();
  app.post(
    "/api/trials/:trial/streams/:stream/samples",
    limited(largestInput),
    withTrial(async (trial, c) => {
      const stream = z.uuid().safeParse(c.req.param("stream"));
      if (stream.success) {
        return takeSamples(store, { trial, stream: stream.data }, await c.req.text());
      }
      const accepted = "a stream's id: that of the entry that opened it (UUID)";
      return invalid([{ field: "stream", value: c.req.param("stream"), accepted }]);
    }),
  );
  app.get(
    "/api/trials/:trial/export",
    withTrial((trial) => exportAnswer(deps, trial)),
  );
  app.get(
    "/api/trials/:trial/report",
    withTrial((trial, c) => reportAnswer(deps, trial, c.req.query("units"))),
  );
}

function routeCalculations(app: Hono, deps: ServerDeps): void {
  const document = openApiDocument(deps.calculations);
  const list = deps.calculations.map(({ name, title, cautions, sources }) => {
    return { name, title, cautions, sources };
  });
  app.get("/api/openapi.json", () => Response.json(document));
  app.get("/api/calculations", () => Response.json({ calculations: list }));
  app.post("/api/calculations/:name", limited(largestInput), async (c) => {
    const name = c.req.param("name");
    if (!list.some((offered) => offered.name === name)) {
      const accepted = `one of: ${list.map((offered) => offered.name).join(", ")}`;
      return invalid([{ field: "name", value: name, accepted }], 404);
    }
    const json = parseJson(await c.req.text(), "body");
    if (json.kind === "invalid") return invalid(json.issues);
    const outcome = deps.compute(name, json.value);
    return outcome.kind === "invalid" ? invalid(outcome.issues) : Response.json(outcome);
  });
}
