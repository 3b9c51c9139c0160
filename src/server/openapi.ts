import { z } from "zod";
import { bodySchemas, envelopeSchema } from "../trial/index.ts";
import type { OfferedCalculation } from "./deps.ts";

type Json = Readonly<Record<string, unknown>>;

/** JSON Schema 2020-12, which is what OpenAPI 3.1 uses. What zod cannot express is left open. */
function schemaOf(schema: z.ZodType, io: "input" | "output"): Json {
  return z.toJSONSchema(schema, { io, unrepresentable: "any" });
}

const issues = z.object({
  issues: z.array(z.object({ field: z.string(), value: z.unknown(), accepted: z.string() })),
});
const error = z.object({ error: z.object({ kind: z.string(), message: z.string() }) });
const appended = z.object({ accepted: z.array(z.uuid()), duplicates: z.array(z.uuid()) });
const batch = z.object({ events: z.array(envelopeSchema) });
const sampleBatch = z.object({
  samples: bodySchemas["samples-received"].shape.samples,
  batch: z.uuidv7().optional(),
});
const noAnswer = z.object({
  kind: z.literal("no-answer"),
  reason: z.string(),
  message: z.string(),
  numbers: z.record(z.string(), z.number()),
});

const content = (schema: z.ZodType, io: "input" | "output" = "output") => ({
  content: { "application/json": { schema: schemaOf(schema, io) } },
});
const answers = (description: string, schema: z.ZodType) => ({ description, ...content(schema) });
const bad = answers("The input cannot be used.", issues);
const unknown = answers("There is nothing at this address.", error);
const busy = answers("Too much is being worked out; ask again later.", error);
const trialInPath = {
  name: "trial",
  in: "path",
  required: true,
  schema: { type: "string", format: "uuid" },
};

/** The whole interface as an OpenAPI 3.1 document. */
export function openApiDocument(calculations: readonly OfferedCalculation[]): Json {
  return {
    openapi: "3.1.0",
    info: {
      title: "Coldproof",
      version: "1",
      description:
        "Trials as logs of events, and the calculations behind them. Numbers are SI: K, absolute Pa, kg, m3, J/kg, kg/m3.",
    },
    paths: {
      ...trialPaths(),
      ...accessPaths(),
      ...Object.fromEntries(
        calculations.map((offered) => [
          `/api/calculations/${offered.name}`,
          { post: calculationOperation(offered) },
        ]),
      ),
    },
  };
}

function calculationOperation({
  name,
  title,
  input,
  output,
  cautions,
  sources,
}: OfferedCalculation) {
  const answer = z.object({
    kind: z.literal("answer"),
    result: output,
    uncertainty: z.unknown().optional(),
    cautions: z.array(z.unknown()),
    sources: z.array(z.unknown()),
    assumptions: z.array(z.unknown()).optional(),
  });
  return {
    operationId: name,
    summary: title,
    description: [...cautions, `Sources: ${sources.join("; ")}`].join("\n\n"),
    requestBody: { required: true, ...content(input, "input") },
    responses: {
      200: answers("The answer, or why there is none.", z.union([answer, noAnswer])),
      422: bad,
      503: busy,
    },
  };
}

function trialPaths(): Json {
  const log = z.object({
    events: z.array(envelopeSchema),
    cursor: z.int(),
    /** The answer ends before the log does: ask again from the cursor. */
    more: z.boolean().optional(),
  });
  const list = z.object({
    /** `events` is also the newest cursor: only a trial where it is another than yours has news. */
    trials: z.array(z.object({ trial: z.uuid(), events: z.int() })),
    workspace: z.string(),
    epoch: z.string(),
  });
  const conflict = answers("An id is in the log with other content.", error);
  const notWritten = answers("The disk did not take it; send it again later.", error);
  return {
    "/api/trials": {
      get: { summary: "Trials in the log", responses: { 200: answers("Trials.", list) } },
    },
    "/api/trials/{trial}/events": {
      parameters: [trialInPath],
      get: {
        summary: "Events of a trial, after a cursor",
        parameters: [{ name: "after", in: "query", schema: { type: "integer", minimum: 0 } }],
        responses: { 200: answers("Events in order of arrival.", log), 422: bad },
      },
      post: {
        summary: "Append events; sending one again changes nothing",
        requestBody: { required: true, ...content(batch, "input") },
        responses: {
          200: answers("On disk.", appended),
          409: conflict,
          422: bad,
          503: notWritten,
        },
      },
    },
    "/api/trials/{trial}/streams/{stream}/samples": {
      parameters: [trialInPath, { ...trialInPath, name: "stream" }],
      post: {
        summary: "Take a batch of samples from an instrument; the same batch again changes nothing",
        requestBody: { required: true, ...content(sampleBatch, "input") },
        responses: {
          200: answers("On disk.", appended.extend({ batch: z.uuid(), samples: z.int() })),
          404: unknown,
          409: conflict,
          422: bad,
          503: notWritten,
        },
      },
    },
    "/api/trials/{trial}/export": {
      parameters: [trialInPath],
      get: {
        summary: "The trial as one file",
        responses: { 200: { description: "An export." }, 404: unknown },
      },
    },
    "/api/trials/{trial}/report": {
      parameters: [trialInPath],
      get: {
        summary: "The trial's report, one self-contained page",
        parameters: [{ name: "units", in: "query", schema: { enum: ["as-typed", "si", "us"] } }],
        responses: { 200: { description: "HTML." }, 404: unknown, 503: busy },
      },
    },
    "/api/trials/import": {
      post: {
        summary: "Take in an export",
        requestBody: { required: true, content: { "application/json": {} } },
        responses: { 200: answers("On disk.", appended), 409: conflict, 422: bad },
      },
    },
  };
}

function accessPaths(): Json {
  const role = z.enum(["owner", "tester", "viewer"]);
  const device = z.object({ id: z.string(), name: z.string() });
  const who = z.object({ workspace: z.string(), workspaceName: z.string(), role, device });
  const access = who.extend({ mode: z.enum(["alone", "shared"]) });
  const code = z.object({ code: z.string(), expires: z.iso.datetime(), url: z.string() });
  const shop = code.extend({ workspace: z.string(), workspaceName: z.string() });
  const listed = device.extend({
    role,
    created: z.string(),
    revoked: z.string().nullable(),
    lastSeen: z.string().nullable(),
  });
  const noKey = answers("No key, or one that opens nothing: Authorization: Bearer KEY.", error);
  const tooMany = answers("Too many tries; wait.", error);
  const body = (schema: z.ZodType) => ({
    requestBody: { required: true, ...content(schema, "input") },
  });
  const name = z.string();
  return {
    "/api/access": {
      get: {
        summary: "Who asks, and what he may do",
        responses: { 200: answers("Workspace, role and device.", access), 401: noKey },
      },
    },
    "/api/pairings": {
      post: {
        summary: "A code that pairs one device within ten minutes; for owners",
        ...body(z.object({ role, name: name.optional() })),
        responses: { 201: answers("The code and its link.", code), 401: noKey, 422: bad },
      },
    },
    "/api/pairings/redeem": {
      post: {
        summary: "A code for a key; the only address without one",
        ...body(z.object({ code: z.string(), device: name.optional() })),
        responses: {
          200: answers("The key, told this once.", who.extend({ key: z.string() })),
          404: answers("Wrong, used or too old.", error),
          429: tooMany,
        },
      },
    },
    "/api/devices": {
      get: {
        summary: "Devices of the workspace; for owners",
        responses: { 200: answers("Devices.", z.object({ devices: z.array(listed) })), 401: noKey },
      },
    },
    "/api/devices/{id}": {
      parameters: [{ name: "id", in: "path", required: true, schema: { type: "string" } }],
      delete: {
        summary: "Revoke a device at once; for owners",
        responses: { 200: answers("Revoked.", z.object({ revoked: name })), 404: unknown },
      },
    },
    "/api/workspaces": {
      post: {
        summary: "Make a workspace; with the operator's secret",
        ...body(z.object({ name })),
        responses: { 201: answers("The code for its first owner.", shop), 401: noKey },
      },
    },
    "/api/live": {
      get: {
        summary: "Server-sent events: appended, with a trial and its newest cursor",
        parameters: [{ name: "trial", in: "query", schema: { type: "string", format: "uuid" } }],
        responses: { 200: { description: "text/event-stream; a comment every 15 s." }, 401: noKey },
      },
    },
  };
}
