import type { MeasuredLoop, ReportOptions, Verification } from "../../report/index.ts";
import type { Identification, StoredEvent } from "../../trial/index.ts";
import type { ReportMessage, ReportRequest } from "./report-message.ts";

/** One request to a worker of its own; fails only where the worker cannot be loaded or breaks down. */
function asked(request: ReportRequest): Promise<ReportMessage> {
  return new Promise((resolve, reject) => {
    // The build puts the worker there: it shares the app's own parts, so that they are kept once.
    const worker = new Worker("/assets/report-worker.js", { type: "module" });
    worker.addEventListener("message", ({ data }: MessageEvent<ReportMessage>) => {
      worker.terminate();
      resolve(data);
    });
    worker.addEventListener("error", () => {
      worker.terminate();
      reject(new Error("the worker that writes reports broke down"));
    });
    worker.postMessage(request);
  });
}

/** The sealed report of a log; undefined where this device cannot write it. */
export async function writtenReport(
  events: readonly StoredEvent[],
  options: Omit<ReportOptions, "program">,
): Promise<string | undefined> {
  const whole = { ...options, program: PROGRAM_VERSION };
  const done = await asked({ kind: "write", events, options: whole }).catch(() => undefined);
  return done?.kind === "written" ? done.html : undefined;
}

/** Everything in a report worked out again; undefined where this device cannot do it. */
export async function checkedReport(html: string): Promise<Verification | undefined> {
  const request = { kind: "check", html, program: PROGRAM_VERSION } as const;
  const done = await asked(request).catch(() => undefined);
  return done?.kind === "checked" ? done.seen : undefined;
}

/** The loop of each charge that is known well enough; undefined where this device cannot work it out. */
export async function loopsOf(
  events: readonly StoredEvent[],
  identified: ReadonlyMap<string, Identification>,
): Promise<readonly MeasuredLoop[] | undefined> {
  const done = await asked({ kind: "loops", events, identified }).catch(() => undefined);
  return done?.kind === "loops" ? done.loops : undefined;
}
