import { spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { setTimeout as pause } from "node:timers/promises";
import { v4, v7 } from "uuid";
import { root } from "../kill/bundle.ts";
import { openConnection } from "./connection.ts";
import { memoryOf, processorOf, processorOfAll } from "./processor.ts";

const secret = "a-secret-for-the-load-test-only";
/** The first seconds compile the server's code, ms; a shop feels them once a start. */
const warmUp = 3000;

/** Milliseconds from sending a batch to its acknowledgement. */
interface Felt {
  readonly p50: number;
  readonly p99: number;
  readonly longest: number;
}

export interface Load {
  readonly acknowledged: number;
  readonly failed: number;
  /** From the first batch of a server that has just started. */
  readonly all: Felt;
  /** Without the first three seconds. */
  readonly later: Felt;
  /** Resident memory of the server at the end, MB. */
  readonly memory: number;
  /** Processor time that the server and the database took for one batch, ms. */
  readonly processor: { readonly server: number; readonly database: number };
  /** How many of the machine's cores the devices, and everything that is not part of the measurement, kept busy. */
  readonly cores: { readonly devices: number; readonly others: number };
}

export interface Measured {
  /** File or postgres://… of an empty log. */
  readonly place: string;
  readonly port: number;
  readonly devices: number;
  readonly seconds: number;
  /** Batches a second of one device. */
  readonly perDevice?: number;
  /** Process of the database, when it is one. */
  readonly database?: number;
  /** What another client of the first device's shop does after the warm-up, again and again. */
  readonly meanwhile?: (port: number, key: string) => Promise<void>;
}

/**
 * The built command as a server on a log, and devices that each send one reading in a batch of its own
 * every second, over connections that stay open, each with a key of its own.
 */
export async function measureLoad(measured: Measured): Promise<Load> {
  const { place, port, database } = measured;
  const child = spawn(
    process.execPath,
    [
      join(root, "bin/coldproof.mjs"),
      ...["serve", "--port", String(port), "--data", place],
      ...["--address", "http://127.0.0.1", "--behind-proxy"],
    ],
    {
      env: { ...process.env, COLDPROOF_OPERATOR_SECRET: secret },
      stdio: ["ignore", "pipe", "inherit"],
    },
  );
  await once(child.stdout, "data");
  try {
    const keys = await pairAll(port, measured.devices);
    const pid = child.pid ?? 0;
    const used = () => {
      const server = processorOf(pid);
      const base = database === undefined ? 0 : processorOf(database);
      // The server and a database of the test are children of this process.
      const devices = processorOf(process.pid) - server - base;
      return { server, database: base, devices, all: processorOfAll() };
    };
    const [before, began] = [used(), performance.now()];
    const { acknowledged, failed } = await stream(keys, measured);
    const [after, took] = [used(), performance.now() - began];
    const by = (part: keyof typeof after) => after[part] - before[part];
    const others = by("all") - by("server") - by("database") - by("devices");
    return {
      ...{ acknowledged: acknowledged.length, failed },
      all: feltBy(acknowledged.map(({ ms }) => ms)),
      later: feltBy(acknowledged.filter(({ at }) => at - began > warmUp).map(({ ms }) => ms)),
      memory: memoryOf(pid),
      processor: {
        server: by("server") / acknowledged.length,
        database: by("database") / acknowledged.length,
      },
      cores: { devices: by("devices") / took, others: others / took },
    };
  } finally {
    child.kill("SIGTERM");
    await once(child, "exit");
  }
}

/** All devices at work: when each batch was sent, and how long its acknowledgement took. */
async function stream(
  keys: readonly string[],
  { port, devices, seconds, perDevice = 1, meanwhile }: Measured,
) {
  const acknowledged: { readonly at: number; readonly ms: number }[] = [];
  let failed = 0;
  const every = 1000 / perDevice;
  const connections = await Promise.all(keys.map(() => openConnection(port)));
  const end = performance.now() + seconds * 1000;
  const work = connections.map(async (connection, i) => {
    const trial = v4();
    const headers = headersFor(keys[i] ?? "");
    await pause((i / devices) * every);
    for (let next = performance.now(); next < end; next += every) {
      await pause(Math.max(0, next - performance.now()));
      const body = reading(trial);
      const at = performance.now();
      const answer = await connection.ask("POST", `/api/trials/${trial}/events`, headers, body);
      if (answer.status === 200) acknowledged.push({ at, ms: answer.at - at });
      else if (failed++ === 0) console.error(answer.status, answer.text);
    }
    connection.close();
  });
  const other = async () => {
    await pause(warmUp);
    while (meanwhile !== undefined && performance.now() < end) await meanwhile(port, keys[0] ?? "");
  };
  await Promise.all([...work, other()]);
  return { acknowledged, failed };
}

function feltBy(times: readonly number[]): Felt {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (part: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
  return { p50: at(0.5) ?? NaN, p99: at(0.99) ?? NaN, longest: at(1) ?? NaN };
}

function reading(trial: string): string {
  const at = new Date().toISOString();
  const event = {
    ...{ id: v7(), trial, at, device: "logger 1", type: "reading-taken", v: 1 },
    body: {
      ...{ stage: "run", quantity: "vent-temperature", form: "steady" },
      value: { value: 7.3, unit: "°C" },
      when: at,
    },
  };
  return JSON.stringify({ events: [event] });
}

/** Lines of a request's head, from a client at an address. */
export function headersFor(key: string | undefined, from = "10.1.1.1"): string {
  const who = key === undefined ? "" : `authorization: Bearer ${key}\r\n`;
  return `content-type: application/json\r\nx-forwarded-for: ${from}\r\n${who}`;
}

/** Ten shops, whose owners pair the devices. */
async function pairAll(port: number, devices: number): Promise<string[]> {
  const { ask, close } = await openConnection(port);
  const post = async (path: string, key: string | undefined, from: string, body: object) => {
    const { text } = await ask("POST", path, headersFor(key, from), JSON.stringify(body));
    return JSON.parse(text) as { code: string; key: string };
  };
  const keys: string[] = [];
  let owner = "";
  for (let i = 0; keys.length < devices; i++) {
    // An address of its own for each: one address may try only so often.
    const from = `10.0.${Math.floor(i / 200)}.${i % 200}`;
    const { code } =
      i % 20 === 0
        ? await post("/api/workspaces", secret, from, { name: `shop ${i}` })
        : await post("/api/pairings", owner, from, { role: "tester" });
    const redeem = { code, device: `device ${i}` };
    const { key } = await post("/api/pairings/redeem", undefined, from, redeem);
    if (i % 20 === 0) owner = key;
    keys.push(key);
  }
  close();
  return keys;
}
