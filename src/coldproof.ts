import { readFileSync } from "node:fs";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { calculations, compute } from "./calculations/index.ts";
import { type CliDeps, runCli, type StartServer } from "./cli/index.ts";
import { renderReport, type SigningKey, type UnitSystem } from "./report/index.ts";
import { createApp, listen, readSite, workAside } from "./server/index.ts";
import { openStore } from "./store/index.ts";
import type { StoredEvent } from "./trial/index.ts";

/**
 * Puts the house together: hands the rooms to the command, and the server to it as well, so that no door
 * imports another. The only module that names them all.
 *
 * @param argv    what follows the command's name.
 * @param process the running process: its streams, environment and signals.
 * @param root    the checkout, with a slash at its end.
 * @returns the exit code.
 */
export function main({
  argv,
  process,
  root,
}: {
  argv: readonly string[];
  process: NodeJS.Process;
  root: string;
}): Promise<number> {
  const version = versionIn(join(root, "package.json"));
  const rooms = {
    calculations,
    compute,
    report: (events: readonly StoredEvent[], units: UnitSystem, key?: SigningKey) => {
      const options = { generatedAt: new Date().toISOString(), units, program: version };
      return renderReport(events, key === undefined ? options : { ...options, key });
    },
  };
  const startServer: StartServer = async (store, where) => {
    const site = readSite([
      { prefix: "/", folder: join(root, "dist/web") },
      { prefix: "/demonstration/", folder: join(root, "data/demonstration") },
    ]);
    const onFault = (error: unknown, request: string) => {
      process.stderr.write(`coldproof: fault in ${request}: ${traceOf(error)}\n`);
    };
    const { sharing } = where;
    const shared = sharing === undefined ? {} : { sharing };
    const aside = workAside(
      () => new Worker(join(root, "dist/aside.mjs"), { workerData: { version } }),
    );
    const { compute: computeAside, report } = aside;
    const work = { calculations, compute: computeAside, report };
    const handle = createApp({ ...work, ...shared, store, site, onFault });
    const listening = await listen(handle, where);
    if (listening.kind === "refused") return listening;
    const stop = async () => {
      await listening.stop();
      await aside.end();
    };
    return { ...listening, stop };
  };
  const deps: CliDeps = {
    ...rooms,
    stdin: process.stdin,
    stdout: process.stdout,
    stderr: process.stderr,
    env: process.env,
    version,
    defaultData: join(root, "var/coldproof.sqlite"),
    openStore,
    addresses,
    startServer,
    untilStopped: () => untilStopped(process),
    http: (request) => fetch(request),
    now: () => Date.now(),
    pause: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
  };
  return runCli(argv, deps);
}

/** IPv4 addresses by which others in the network reach this machine. */
function addresses(): readonly string[] {
  return Object.values(networkInterfaces())
    .flatMap((found) => found ?? [])
    .filter(({ family, internal }) => family === "IPv4" && !internal)
    .map(({ address }) => address);
}

/** Resolves at the first SIGINT or SIGTERM; the second one ends the process as usual. */
function untilStopped(process: NodeJS.Process): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) {
      process.once(signal, () => {
        resolve();
      });
    }
  });
}

function versionIn(file: string): string {
  const { version } = JSON.parse(readFileSync(file, "utf8")) as { version: string };
  return version;
}

function traceOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
