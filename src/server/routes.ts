import type { Context } from "hono";
import { z } from "zod";
import type { Role, WorkspaceLog } from "../store/index.ts";
import { parseJson } from "../wire/index.ts";
import {
  accessAnswer,
  listDevices,
  makePairing,
  makeWorkspace,
  redeemPairing,
  revokeDevice,
} from "./access.ts";
import { invalid } from "./answers.ts";
import type { ServerDeps } from "./deps.ts";
import type { Asker } from "./identify.ts";
import { liveStreams } from "./live.ts";
import { openApiDocument } from "./openapi.ts";
import { sampleTaker } from "./streams.ts";
import { appendEvents, exportAnswer, importTrial, readEvents, reportAnswer } from "./trials.ts";

/** Largest body of a batch, of an import, of a calculation's input and of everything else, bytes. */
const largestBatch = 16 * 2 ** 20;
const largestImport = 4 * largestBatch;
const largestInput = 2 ** 20;
const largestForm = 2 ** 14;

/** A request by somebody who may make it. */
export interface Asked {
  readonly c: Context;
  readonly asker: Asker;
  /** The asker's workspace, and no other. */
  readonly log: WorkspaceLog;
}

interface Address {
  readonly method: "get" | "post" | "delete";
  readonly path: string;
  /** Bytes of the body. */
  readonly largest: number;
}
type Answer = Response | Promise<Response>;

/** An address for devices with a role or more. */
export interface MemberRoute extends Address {
  readonly needs: Role;
  readonly answer: (asked: Asked) => Answer;
}

/** An address for somebody without a key, or for the `operator` with the server's own secret. */
export interface OpenRoute extends Address {
  readonly needs: "stranger" | "operator";
  readonly answer: (c: Context) => Answer;
}

/** One address of the interface and who may use it. */
export type Route = MemberRoute | OpenRoute;

const member = (route: Omit<MemberRoute, "largest"> & { largest?: number }): MemberRoute => {
  return { largest: largestForm, ...route };
};
const open = (route: Omit<OpenRoute, "largest">): OpenRoute => ({ largest: largestForm, ...route });

/** Every address under /api. There are no others: what is not in this list does not exist. */
export function apiRoutes(deps: ServerDeps): readonly Route[] {
  return [...trialRoutes(deps), ...calculationRoutes(deps), ...accessRoutes(deps)];
}

/** Runs a handler for a well-formed trial id. */
function withTrial(answer: (trial: string, asked: Asked) => Promise<Response>) {
  return (asked: Asked): Promise<Response> => {
    const given = asked.c.req.param("trial");
    const trial = z.uuid().safeParse(given);
    if (trial.success) return answer(trial.data, asked);
    const issue = { field: "trial", value: given, accepted: "a trial's id (UUID)" };
    return Promise.resolve(invalid([issue]));
  };
}

function trialRoutes({ store, report }: ServerDeps): readonly Route[] {
  const ofTrial = "/api/trials/:trial";
  const takeSamples = sampleTaker();
  return [
    member({
      method: "get",
      path: "/api/trials",
      needs: "viewer",
      answer: async ({ log, asker }) => {
        const workspace = await store.access.workspace(asker.workspace);
        const { id, epoch } = workspace ?? { id: asker.workspace, epoch: undefined };
        return Response.json({ trials: await log.trials(), workspace: id, epoch });
      },
    }),
    member({
      method: "post",
      path: "/api/trials/import",
      needs: "tester",
      largest: largestImport,
      answer: async ({ log, c }) => importTrial(log, await c.req.text()),
    }),
    member({
      method: "get",
      path: `${ofTrial}/events`,
      needs: "viewer",
      answer: withTrial((trial, { log, c }) => readEvents(log, trial, c.req.query("after"))),
    }),
    member({
      method: "post",
      path: `${ofTrial}/events`,
      needs: "tester",
      largest: largestBatch,
      answer: withTrial(async (trial, { log, c }) => appendEvents(log, trial, await c.req.text())),
    }),
    member({
      method: "post",
      path: `${ofTrial}/streams/:stream/samples`,
      needs: "tester",
      largest: largestInput,
      answer: withTrial(async (trial, { log, asker, c }) => {
        const given = c.req.param("stream");
        const stream = z.uuid().safeParse(given);
        if (stream.success) {
          const where = { workspace: asker.workspace, trial, stream: stream.data };
          return takeSamples(log, where, await c.req.text());
        }
        const accepted = "a stream's id: that of the entry that opened it (UUID)";
        return invalid([{ field: "stream", value: given, accepted }]);
      }),
    }),
    member({
      method: "get",
      path: `${ofTrial}/export`,
      needs: "viewer",
      answer: withTrial((trial, { asker: { workspace } }) => exportAnswer(store, workspace, trial)),
    }),
    member({
      method: "get",
      path: `${ofTrial}/report`,
      needs: "viewer",
      answer: withTrial((trial, { asker: { workspace }, c }) =>
        reportAnswer({ store, report }, { workspace, trial }, c.req.query("units")),
      ),
    }),
  ];
}

function calculationRoutes({ calculations, compute }: ServerDeps): readonly Route[] {
  const document = openApiDocument(calculations);
  const list = calculations.map(({ name, title, cautions, sources }) => {
    return { name, title, cautions, sources };
  });
  const get = { method: "get", needs: "viewer" } as const;
  return [
    member({ ...get, path: "/api/openapi.json", answer: () => Response.json(document) }),
    member({
      ...get,
      path: "/api/calculations",
      answer: () => Response.json({ calculations: list }),
    }),
    member({
      method: "post",
      path: "/api/calculations/:name",
      needs: "viewer",
      largest: largestInput,
      answer: async ({ c }) => {
        const name = c.req.param("name") ?? "";
        if (!list.some((offered) => offered.name === name)) {
          const accepted = `one of: ${list.map((offered) => offered.name).join(", ")}`;
          return invalid([{ field: "name", value: name, accepted }], 404);
        }
        const json = parseJson(await c.req.text(), "body");
        if (json.kind === "invalid") return invalid(json.issues);
        const outcome = await compute(name, json.value);
        return outcome.kind === "invalid" ? invalid(outcome.issues) : Response.json(outcome);
      },
    }),
  ];
}

function accessRoutes({ store, sharing, now = Date.now }: ServerDeps): readonly Route[] {
  const deps = { store, now, address: sharing?.address ?? (() => "") };
  const live = liveStreams(store);
  return [
    member({
      method: "get",
      path: "/api/access",
      needs: "viewer",
      answer: ({ asker }) => accessAnswer(deps, asker),
    }),
    member({
      method: "post",
      path: "/api/pairings",
      needs: "owner",
      answer: async ({ asker, c }) => makePairing(deps, asker, await c.req.text()),
    }),
    open({
      method: "post",
      path: "/api/pairings/redeem",
      needs: "stranger",
      answer: async (c) => redeemPairing(deps, await c.req.text()),
    }),
    member({
      method: "get",
      path: "/api/devices",
      needs: "owner",
      answer: ({ asker }) => listDevices(deps, asker),
    }),
    member({
      method: "delete",
      path: "/api/devices/:id",
      needs: "owner",
      answer: ({ asker, c }) => revokeDevice(deps, asker, c.req.param("id") ?? ""),
    }),
    open({
      method: "post",
      path: "/api/workspaces",
      needs: "operator",
      answer: async (c) => makeWorkspace(deps, await c.req.text()),
    }),
    member({
      method: "get",
      path: "/api/live",
      needs: "viewer",
      answer: ({ asker, c }) => live(asker, c.req.query("trial")),
    }),
  ];
}
