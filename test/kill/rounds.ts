import { spawn } from "node:child_process";
import { once } from "node:events";
import Database from "better-sqlite3";
import { isPostgres, openStore } from "../../src/store/index.ts";
import type { StoredEvent } from "../../src/trial/index.ts";
import { note, trialId } from "../doors/sample-events.ts";

/** What a run of rounds saw, for the assertions and for the closing note. */
export interface KillReport {
  rounds: number;
  acknowledged: number;
  ids: ReadonlySet<string>;
  /** Kills that left a batch without an answer: the ones that matter. */
  interrupted: number;
  /** Acknowledged events that were gone after a kill. */
  lost: string[];
  /** Breaks in the numbering of a trial: an event twice or none. */
  gaps: number;
  /** Answers other than 200, broken chains, and what SQLite's own check said other than ok. */
  faults: string[];
}

/**
 * Kills a server with SIGKILL while writers send batches, again and again on one file or database. A batch without
 * an answer is sent again in the next round, as a device would.
 *
 * @param server  built entry, see server-process.ts.
 * @param file    the log's file, or postgres://…
 * @param firstId number of the first event: rounds after rounds on one log need others.
 * @param rng    uniform in [0, 1): sizes of batches and moments of the kills.
 */
export async function killRounds(
  {
    server,
    file,
    rounds,
    writers,
    firstId = 0,
  }: { server: string; file: string; rounds: number; writers: number; firstId?: number },
  rng: () => number,
): Promise<KillReport> {
  const report = emptyReport();
  const acknowledged = new Set<string>();
  const queues: StoredEvent[][][] = Array.from({ length: writers }, () => []);
  let made = firstId;
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
    await inspect(file, acknowledged, report);
  }
  report.acknowledged = acknowledged.size;
  report.ids = acknowledged;
  return report;
}

export function emptyReport(): KillReport {
  return {
    rounds: 0,
    acknowledged: 0,
    ids: new Set(),
    interrupted: 0,
    lost: [],
    gaps: 0,
    faults: [],
  };
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

/** Looks into the log as the kill left it: nothing is repaired, every chain recomputed. */
export async function inspect(
  place: string,
  acknowledged: ReadonlySet<string>,
  report: KillReport,
): Promise<void> {
  if (!isPostgres(place)) {
    const sqlite = new Database(place);
    const verdict = String(sqlite.pragma("integrity_check", { simple: true }));
    if (verdict !== "ok") report.faults.push(verdict);
    sqlite.close();
  }
  const opened = await openStore(place);
  if (opened.kind === "refused") throw new Error(`${opened.reason}: ${opened.detail}`);
  const { store } = opened;
  const present = new Set<string>();
  for await (const verdict of store.verify()) {
    if (verdict.kind === "broken") report.faults.push(`${verdict.trial}: ${verdict.reason}`);
    const { events, cursor } = await store.read(verdict.trial);
    const ids = new Set(events.map(({ id }) => id));
    for (const id of ids) present.add(id);
    if (ids.size !== events.length || cursor !== events.length) report.gaps++;
  }
  for (const id of acknowledged) if (!present.has(id)) report.lost.push(id);
  await store.close();
}

function later() {
  let resolve: (value: undefined) => void = () => undefined;
  const promise = new Promise<undefined>((settle) => {
    resolve = settle;
  });
  return { promise, resolve };
}
