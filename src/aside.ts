import { setPriority } from "node:os";
import { parentPort, workerData } from "node:worker_threads";
import { compute } from "./calculations/index.ts";
import { renderReport } from "./report/index.ts";
import type { AsideAnswer, AsideRequest } from "./server/index.ts";
import type { StoredEvent } from "./trial/index.ts";

/** The thread on which the server works out what takes long; see server/aside.ts. */
const { version: program } = workerData as { readonly version: string };
let waiting:
  { units: Parameters<typeof renderReport>[1]["units"]; events: StoredEvent[] } | undefined;

// Acknowledgements go first where processors are few. Linux counts a priority by thread; elsewhere this would
// slow the whole server.
if (process.platform === "linux") setPriority(10);

parentPort?.on("message", (request: AsideRequest) => {
  try {
    const answer = answerTo(request);
    if (answer !== undefined) parentPort?.postMessage(answer);
  } catch (error) {
    const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
    parentPort?.postMessage({ kind: "fault", trace } satisfies AsideAnswer);
  }
});

function answerTo(request: AsideRequest): AsideAnswer | undefined {
  switch (request.kind) {
    case "compute":
      return { kind: "computed", answer: compute(request.name, request.input) };
    case "report":
      waiting = { units: request.units, events: [] };
      return undefined;
    case "piece":
      waiting?.events.push(...(JSON.parse(request.text) as StoredEvent[]));
      return undefined;
    case "end": {
      if (waiting === undefined) throw new RangeError("an end without a report");
      const { events, units } = waiting;
      waiting = undefined;
      const options = { generatedAt: new Date().toISOString(), units, program };
      return { kind: "report", html: renderReport(events, options) };
    }
  }
}
