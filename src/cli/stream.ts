import { v7 as uuidv7 } from "uuid";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { linesOf } from "./lines.ts";
import { outputOn } from "./output.ts";
import { type Sample, sampleOf } from "./samples.ts";
import { fail } from "./trial.ts";

export interface StreamOptions {
  readonly trial: string;
  readonly stream: string;
  readonly server?: string;
  readonly key?: string;
  readonly every?: string;
}

const usualServer = "http://127.0.0.1:4780";
/** Samples in one batch at most; a faster instrument makes more batches. */
const mostSamples = 500;
/** Pauses between tries, ms; the last one is repeated until the server has been away for ten minutes. */
const pauses = [500, 1000, 2000, 5000, 10_000];
const patience = 600_000;

/** `stream`: sends what an instrument writes to standard input, in batches, each until it is safe. */
export async function stream(deps: CliDeps, options: StreamOptions): Promise<Exit> {
  const every = Number(options.every ?? "1");
  if (!(every > 0 && every <= 60)) {
    return fail(deps, "--every takes seconds, more than 0 and up to 60.");
  }
  const sender = new Sender(deps, options);
  for await (const batch of batchesOf(deps, 1000 * every)) {
    if (batch.kind === "invalid") {
      await outputOn(deps.stderr).write(
        `coldproof: line ${batch.line} was left out: ${batch.why}\n`,
      );
    } else {
      const problem = await sender.send(batch.samples);
      if (problem !== undefined) return fail(deps, problem);
    }
  }
  const { samples, batches } = sender;
  await outputOn(deps.stdout).write(`${samples} samples in ${batches} batches are in the log.\n`);
  return exit.done;
}

type Piece =
  | { readonly kind: "batch"; readonly samples: readonly Sample[] }
  | { readonly kind: "invalid"; readonly line: number; readonly why: string };

/** Batches of what comes within `window` ms, or of as many samples as one batch may hold. */
async function* batchesOf(deps: CliDeps, window: number): AsyncGenerator<Piece> {
  const lines = linesOf(deps.stdin)[Symbol.asyncIterator]();
  let samples: Sample[] = [];
  let due: Promise<"due"> | undefined;
  let count = 0;
  let next = lines.next();
  for (;;) {
    const came = await (due ? Promise.race([next, due]) : next);
    const isOver = came !== "due" && came.done === true;
    if (came !== "due" && !isOver) {
      next = lines.next();
      count++;
      const text = came.value.kind === "line" ? came.value.text : "x";
      const read = sampleOf(text, count === 1, new Date(deps.now()).toISOString());
      if (read.kind === "invalid") yield { kind: "invalid", line: count, why: read.why };
      if (read.kind !== "sample") continue;
      samples.push(read.sample);
      due ??= deps.pause(window).then(() => "due");
      if (samples.length < mostSamples) continue;
    }
    if (samples.length > 0) yield { kind: "batch", samples };
    [samples, due] = [[], undefined];
    if (isOver) return;
  }
}

class Sender {
  samples = 0;
  batches = 0;
  private readonly deps: CliDeps;
  private readonly options: StreamOptions;

  constructor(deps: CliDeps, options: StreamOptions) {
    this.deps = deps;
    this.options = options;
  }

  /** Sends one batch under one number until the server has it; a sentence when it never will. */
  async send(samples: readonly Sample[]): Promise<string | undefined> {
    const batch = uuidv7({ msecs: this.deps.now() });
    const body = JSON.stringify({ samples, batch });
    const since = this.deps.now();
    for (let tries = 0; ; tries++) {
      const answer = await this.deps.http(this.request(body)).catch(() => undefined);
      if (answer?.ok === true) {
        this.samples += samples.length;
        this.batches += 1;
        return undefined;
      }
      if (answer && !isPassing(answer.status)) return refusalWords(answer);
      if (this.deps.now() - since > patience) {
        return `the server does not answer; ${samples.length} samples of the last batch were not sent.`;
      }
      await this.deps.pause(pauses[Math.min(tries, pauses.length - 1)] ?? 0);
    }
  }

  private request(body: string): Request {
    const { trial, stream: id, server = usualServer } = this.options;
    const key = this.options.key ?? this.deps.env["COLDPROOF_KEY"];
    const path = `/api/trials/${encodeURIComponent(trial)}/streams/${encodeURIComponent(id)}/samples`;
    return new Request(server.replace(/\/+$/, "") + path, {
      method: "POST",
      headers: {
        "content-type": "application/json",
        ...(key !== undefined && { authorization: `Bearer ${key}` }),
      },
      body,
    });
  }
}

/** The server is away, busy or out of room for a while: the same batch is sent again. */
const isPassing = (status: number): boolean => status >= 500 || status === 429 || status === 408;

async function refusalWords(answer: Response): Promise<string> {
  const text = await answer.text();
  if (answer.status === 401) {
    return "the server wants a key. Make one in the app under Settings, Devices, and give it with --key or COLDPROOF_KEY.";
  }
  return `the server refuses the samples (${answer.status}): ${text.slice(0, 400)}`;
}
