import { spawn } from "node:child_process";
import { once } from "node:events";
import Database from "better-sqlite3";
import type { StoredEvent } from "../../src/trial/index.ts";
import { note, trialId } from "../doors/sample-events.ts";

/** What a run of rounds saw, for the assertions and for the closing note. */
export interface KillReport {
  rounds: number;
  acknowledged: number;
  /** Kills that left a batch without an answer: the ones that matter. */
  interrupted: number;
  /** Acknowledged events that were gone after a kill. */
  lost: string[];
  /** Breaks in the numbering of a trial: an event twice or none. */
  gaps: number;
  /** Answers other than 200, and what SQLite's own check said other than ok. */
  faults: string[];
}

/**
 * Kills a server with SIGKILL while writers send batches, again and again on one file. A batch without
 * an answer is sent again in the next round, as a device would.
 *
 * @param server built entry, see server-process.ts.
 * @param rng    uniform in [0, 1): sizes of batches and moments of the kills.
 */
export async function killRounds(
  {
    server,
    file,
    rounds,
    writers,
  }: { server: string; file: string; rounds: number; writers: number },
  rng: () => number,
): Promise<KillReport> {
  const report = emptyReport();
  const acknowledged = new Set<string>();
  const queues: StoredEvent[][][] = Array.from({ length: writers }, () => []);
  let made = 0;
  const nextBatch = (trial: number) =>
    Array.from({ length: 1 + Math.floor(rng() * 4) }, () => note(made++, { trial }));

  for (; report.rounds < rounds; report.rounds++) {
    const { child, url } = await startServer(server, file);
    // Counted in answers rather than in time, so that a slow machine is asked no less.
    let left = 1 + Math.floor(rng() * 12);
    const enough = later();
    const work = queues.map(async (queue, i) => {
      for (let alive = true; alive;) {
        const trial = i % 2;
        if (queue.length === 0) queue.push(nextBatch(trial));
        const batch = queue[0] ?? [];
        alive = await send(url, trial, batch, report);
        if (!alive) continue;
        for (const { id } of batch) acknowledged.add(id);
        queue.shift();
        if (--left === 0) enough.resolve(undefined);
      }
    });
    await Promise.race([enough.promise, once(child, "exit")]);
    await new Promise((resolve) => setTimeout(resolve, rng() * 20));
    child.kill("SIGKILL");
    await Promise.all([...work, once(child, "close")]);
    if (queues.some((queue) => queue.length > 0)) report.interrupted++;
    inspect(file, acknowledged, report);
  }
  report.acknowledged = acknowledged.size;
  return report;
}

export function emptyReport(): KillReport {
  return { rounds: 0, acknowledged: 0, interrupted: 0, lost: [], gaps: 0, faults: [] };
}

/** A server process that listens. */
export async function startServer(server: string, file: string) {
  const child = spawn(process.execPath, [server, file], { stdio: ["ignore", "pipe", "inherit"] });
  const [line] = (await once(child.stdout.setEncoding("utf8"), "data")) as [string];
  return { child, url: line.trim() };
}

/** True when acknowledged; false when the server is gone. Any other answer is a fault. */
export async function send(url: string, trial: number, events: StoredEvent[], report: KillReport) {
  try {
    const response = await fetch(`${url}/api/trials/${trialId(trial)}/events`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ events }),
    });
    if (response.status !== 200) report.faults.push(`${response.status} ${await response.text()}`);
    await response.arrayBuffer().catch(() => undefined);
    return response.status === 200;
  } catch {
    return false;
  }
}

/** Looks into the file as the kill left it. */
export function inspect(file: string, acknowledged: ReadonlySet<string>, report: KillReport): void {
  const sqlite = new Database(file);
  const verdict = String(sqlite.pragma("integrity_check", { simple: true }));
  if (verdict !== "ok") report.faults.push(verdict);
  const present = new Set(sqlite.prepare<[], string>("select id from event").pluck().all());
  for (const id of acknowledged) if (!present.has(id)) report.lost.push(id);
  const counts = sqlite
    .prepare<[], { n: number; top: number; last: number }>(
      "select count(*) n, max(seq) top, last_seq last from event join trial on trial.id = event.trial group by event.trial",
    )
    .all();
  report.gaps += counts.filter(({ n, top, last }) => n !== top || n !== last).length;
  sqlite.close();
}

function later() {
  let resolve: (value: undefined) => void = () => undefined;
  const promise = new Promise<undefined>((settle) => {
    resolve = settle;
  });
  return { promise, resolve };
}
