import type { Worker } from "node:worker_threads";
import type { Answer } from "../calculations/index.ts";
import type { UnitSystem } from "../report/index.ts";
import type { LogTexts } from "./deps.ts";

/** What a worker is asked. A report's request is followed by the log in pieces, and by an end. */
export type AsideRequest =
  | { readonly kind: "compute"; readonly name: string; readonly input: unknown }
  | { readonly kind: "report"; readonly units: UnitSystem }
  | { readonly kind: "piece"; readonly text: string }
  | { readonly kind: "end" };

/** What a worker answers to one request. */
export type AsideAnswer =
  | { readonly kind: "computed"; readonly answer: Answer }
  | { readonly kind: "report"; readonly html: string }
  | { readonly kind: "fault"; readonly trace: string };

/** Requests that wait for a worker; one more is refused. */
const mostWaiting = 32;

/** Too much is waiting already: a door says so and asks to try again. */
export class Busy extends Error {
  override readonly name = "Busy";
}

/**
 * Works out what takes long on threads of its own, so that devices are acknowledged meanwhile. One thread for calculations and one
 * for reports, each started when it is first needed: a short calculation never waits for a long report.
 *
 * @param start makes a thread that answers as `AsideAnswer`; one that broke down is replaced at the next request.
 */
export function workAside(start: () => Worker) {
  const [calculator, writer] = [oneThread(start), oneThread(start)];
  return {
    compute: async (name: string, input: unknown): Promise<Answer> => {
      const done = await calculator.ask({ kind: "compute", name, input });
      if (done.kind !== "computed") throw new RangeError(`a calculation became a ${done.kind}`);
      return done.answer;
    },
    report: async (log: LogTexts, units: UnitSystem): Promise<string> => {
      const done = await writer.ask({ kind: "report", units }, log);
      if (done.kind !== "report") throw new RangeError(`a report became ${done.kind}`);
      return done.html;
    },
    end: async (): Promise<void> => {
      await Promise.all([calculator.end(), writer.end()]);
    },
  };
}

type Done = Exclude<AsideAnswer, { kind: "fault" }>;

/** One request after the other on one thread. */
function oneThread(start: () => Worker) {
  let worker: Worker | undefined;
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;

  const turn = async (request: AsideRequest, log: LogTexts | undefined): Promise<Done> => {
    const running = (worker ??= start());
    // It must not keep a process alive that is asked to stop.
    running.unref();
    const broken = () => {
      if (worker === running) worker = undefined;
    };
    const answer = answerOf(running, broken);
    running.postMessage(request);
    if (log === undefined) return answer.promise;
    try {
      await feed(running, log);
    } catch (error) {
      // The next request makes the thread forget the part that it has.
      answer.forget();
      throw error;
    }
    return answer.promise;
  };
  return {
    ask: async (request: AsideRequest, log?: LogTexts): Promise<Done> => {
      if (waiting >= mostWaiting) throw new Busy("busy");
      waiting++;
      const mine = last.then(() => turn(request, log));
      last = mine.catch(() => undefined).finally(() => waiting--);
      return mine;
    },
    end: async () => {
      await worker?.terminate();
    },
  };
}

/** Texts, not objects: copying them to another thread costs this one next to nothing. */
async function feed(worker: Worker, log: LogTexts): Promise<void> {
  for await (const text of log) worker.postMessage({ kind: "piece", text } satisfies AsideRequest);
  worker.postMessage({ kind: "end" } satisfies AsideRequest);
}

function answerOf(worker: Worker, broken: () => void) {
  let forget = () => {};
  const promise = new Promise<Done>((resolve, reject) => {
    const answered = (answer: AsideAnswer) => {
      forget();
      if (answer.kind === "fault") reject(new Error(`in a thread aside: ${answer.trace}`));
      else resolve(answer);
    };
    const ended = (why: unknown) => {
      forget();
      broken();
      reject(why instanceof Error ? why : new Error(`a thread aside ended: ${String(why)}`));
    };
    forget = () => {
      worker.off("message", answered).off("error", ended).off("exit", ended);
    };
    worker.on("message", answered).on("error", ended).on("exit", ended);
  });
  // A thread that breaks down while it is still being fed must not end the process.
  promise.catch(() => undefined);
  return { promise, forget };
}
