import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import type { WorkspaceLog } from "../store/index.ts";
import { parseEvent } from "../trial/index.ts";
import { parseJson } from "../wire/index.ts";
import { invalid, refusal } from "./answers.ts";
import { appendParsed } from "./trials.ts";

/** Streams of a trial seen so far, and up to where its log was looked through. */
interface Seen {
  cursor: number;
  /** Columns by the id of the entry that opened the stream. */
  readonly streams: Map<string, number>;
}

interface Where {
  readonly workspace: string;
  readonly trial: string;
  readonly stream: string;
}

/** Trials whose streams are remembered; one more forgets the oldest. */
const mostTrials = 2000;

const bodySchema = z.strictObject({
  samples: z.array(z.unknown()).min(1).max(2000),
  batch: z.uuidv7().optional(),
});

const accepted =
  '{"samples": [1 to 2000 of {"at", "values"}], "batch": a UUIDv7 of this batch, the same at every try}';

/** Takes batches of samples; remembers which streams it has met, so that a batch costs one write. */
export function sampleTaker() {
  /** By workspace and trial: one workspace's streams are never another's. */
  const trials = new Map<string, Seen>();

  /** Number of columns of a stream; undefined when the trial's log opens none of that id. */
  async function widthOf(log: WorkspaceLog, { workspace, trial, stream }: Where) {
    const key = `${workspace} ${trial}`;
    const seen = trials.get(key) ?? { cursor: 0, streams: new Map<string, number>() };
    if (!seen.streams.has(stream)) await lookFurther(log, trial, seen);
    trials.delete(key);
    if (seen.streams.size > 0) trials.set(key, seen);
    const [oldest] = trials.keys();
    if (trials.size > mostTrials && oldest !== undefined) trials.delete(oldest);
    return seen.streams.get(stream);
  }

  /** `POST /api/trials/:trial/streams/:stream/samples` */
  return async (store: WorkspaceLog, where: Where, text: string): Promise<Response> => {
    const json = parseJson(text, "body");
    if (json.kind === "invalid") return invalid(json.issues);
    const body = bodySchema.safeParse(json.value);
    if (!body.success) return invalid([{ field: "body", value: typeof json.value, accepted }]);
    const parsed = batchEvent(where, body.data);
    if (parsed.kind === "invalid") {
      return invalid(
        parsed.issues.map((one) => ({ ...one, field: one.field.replace(/^body\./, "") })),
      );
    }
    const width = await widthOf(store, where);
    if (width === undefined) {
      return refusal(404, "unknown-stream", "no entry of this trial opens a stream of that id");
    }
    const { event } = parsed;
    const odd = event.body.samples.findIndex(({ values }) => values.length !== width);
    if (odd >= 0) {
      const value = event.body.samples[odd]?.values.length;
      const words = `${width} values, one a column; null where an instrument said nothing`;
      return invalid([{ field: `samples.${odd}.values`, value, accepted: words }]);
    }
    return appendParsed(store, [event], { batch: event.id, samples: event.body.samples.length });
  };
}

async function lookFurther(store: WorkspaceLog, trial: string, seen: Seen): Promise<void> {
  const { events, cursor } = await store.read(trial, seen.cursor);
  seen.cursor = cursor;
  for (const event of events) {
    if (event.type !== "stream-opened") continue;
    const parsed = parseEvent(event);
    if (parsed.kind === "event" && parsed.event.type === "stream-opened") {
      seen.streams.set(event.id, parsed.event.body.columns.length);
    }
  }
}

/** The same batch gives the same event at every try: its instant is the one that its id carries. */
function batchEvent(
  { trial, stream }: Where,
  { samples, batch = uuidv7() }: z.infer<typeof bodySchema>,
) {
  const ms = Number.parseInt(batch.replace("-", "").slice(0, 12), 16);
  const at = new Date(Math.min(ms, 8.64e15)).toISOString();
  const parsed = parseEvent({
    id: batch,
    trial,
    at,
    device: "stream",
    type: "samples-received",
    v: 1,
    body: { stream, samples },
  });
  if (parsed.kind === "invalid") return parsed;
  if (parsed.event.type !== "samples-received") throw new RangeError("a batch became another type");
  return { kind: "event", event: parsed.event } as const;
}
