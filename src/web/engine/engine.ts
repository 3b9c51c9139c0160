import type { Answer } from "../../calculations/index.ts";
import type { BatchAnswer, Job } from "./batch.ts";

/** Answers kept for what is asked again: a screen that is left and opened, a unit changed back. */
const KEPT = 60;

interface Waiting {
  readonly id: number;
  readonly key: string;
  readonly jobs: readonly Job[];
  /** Nobody waits for it any more. */
  dropped: boolean;
  readonly resolve: (answers: readonly Answer[]) => void;
  readonly reject: (reason: Error) => void;
}

let worker: Worker | undefined;
let sent: Waiting | undefined;
let queue: Waiting[] = [];
let lastId = 0;
const known = new Map<string, readonly Answer[]>();

/** The batch that is asked for; `drop` when its answer is not wanted any more. */
export interface Asked {
  readonly answers: Promise<readonly Answer[]>;
  drop(): void;
}

export const keyOf = (jobs: readonly Job[]): string => JSON.stringify(jobs);

export const knownAnswers = (key: string): readonly Answer[] | undefined => known.get(key);

/**
 * Asks the worker, one batch at a time: what is dropped before its turn is never computed.
 * @returns a promise that fails only if the worker itself cannot be loaded or broke down.
 */
export function ask(jobs: readonly Job[]): Asked {
  const id = ++lastId;
  let entry: Waiting | undefined;
  const answers = new Promise<readonly Answer[]>((resolve, reject) => {
    entry = { id, key: keyOf(jobs), jobs, dropped: false, resolve, reject };
    queue.push(entry);
  });
  sendNext();
  return {
    answers,
    drop: () => {
      if (entry) entry.dropped = true;
    },
  };
}

function sendNext(): void {
  if (sent) return;
  queue = queue.filter(({ dropped }) => !dropped);
  const next = queue.shift();
  if (!next) return;
  sent = next;
  started().postMessage({ id: next.id, jobs: next.jobs });
}

function started(): Worker {
  if (worker) return worker;
  // The build puts the worker there: it shares the app's own parts, so that they are kept once.
  worker = new Worker("/assets/compute-worker.js", { type: "module" });
  worker.addEventListener("message", ({ data }: MessageEvent<BatchAnswer>) => {
    settle(data);
  });
  worker.addEventListener("error", () => {
    broken();
  });
  return worker;
}

function settle({ id, answers }: BatchAnswer): void {
  if (sent?.id !== id) return;
  known.set(sent.key, answers);
  const [oldest] = known.keys();
  if (known.size > KEPT && oldest !== undefined) known.delete(oldest);
  sent.resolve(answers);
  sent = undefined;
  sendNext();
}

/** The next request starts a worker of its own. */
function broken(): void {
  const all = [...(sent ? [sent] : []), ...queue];
  worker?.terminate();
  [worker, sent, queue] = [undefined, undefined, []];
  for (const { reject } of all) reject(new Error("the worker that computes broke down"));
}
