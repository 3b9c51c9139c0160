import { readdirSync, readFileSync } from "node:fs";
import { setTimeout as pause } from "node:timers/promises";
import { note, trialId } from "../doors/sample-events.ts";
import { emptyReport, inspect, type KillReport, startServer } from "./rounds.ts";

/**
 * Kills one of PostgreSQL's processes again and again while writers send batches through one server that goes on. PostgreSQL
 * then ends all its others and recovers from its log; the server has to find its way back by itself.
 *
 * @param parent process of PostgreSQL whose children are killed.
 * @param file   postgres://…
 */
export async function surviveKills(
  { server, file, parent, kills }: { server: string; file: string; parent: number; kills: number },
  rng: () => number,
): Promise<KillReport> {
  const report = emptyReport();
  const acknowledged = new Set<string>();
  const { child, url } = await startServer(server, file);
  let going = true;
  let made = 0;
  const writers = Array.from({ length: 8 }, async (_, i) => {
    const trial = i % 3;
    while (going) {
      const batch = Array.from({ length: 1 + Math.floor(rng() * 4) }, () =>
        note(made++, { trial }),
      );
      while (!(await taken(url, trial, batch, report))) await pause(20);
      for (const { id } of batch) acknowledged.add(id);
    }
  });
  for (; report.rounds < kills; report.rounds++) {
    await pause(rng() * 300);
    // A process has no title for a moment after its start.
    let backends: readonly number[] = [];
    while (backends.length === 0) {
      await pause(10);
      backends = childrenOf(parent, "coldproof");
    }
    process.kill(backends[Math.floor(rng() * backends.length)] ?? 0, "SIGKILL");
    report.interrupted++;
    for (const before = acknowledged.size; acknowledged.size < before + 8;) await pause(10);
  }
  going = false;
  await Promise.all(writers);
  child.kill("SIGKILL");
  await inspect(file, acknowledged, report);
  report.acknowledged = acknowledged.size;
  report.ids = acknowledged;
  return report;
}

/** False for an answer that asks to send it again; any other refusal is a fault. */
async function taken(url: string, trial: number, events: unknown[], report: KillReport) {
  const answer = await fetch(`${url}/api/trials/${trialId(trial)}/events`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ events }),
  });
  const text = await answer.text();
  if (answer.status !== 200 && answer.status !== 503)
    report.faults.push(`${answer.status} ${text}`);
  return answer.status === 200;
}

/** PostgreSQL writes what a process does into its title. */
function childrenOf(parent: number, title: string): readonly number[] {
  return readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => {
      try {
        const [, of] =
          readFileSync(`/proc/${name}/stat`, "utf8").split(") ").at(-1)?.split(" ") ?? [];
        const named = readFileSync(`/proc/${name}/cmdline`, "utf8").includes(title);
        return of === String(parent) && named ? [Number(name)] : [];
      } catch {
        // It ended meanwhile.
        return [];
      }
    });
}
