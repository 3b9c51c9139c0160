import { spawn } from "node:child_process";
import { once } from "node:events";
import { readFile } from "node:fs/promises";
import { Agent, request } from "node:http";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { setTimeout as pause } from "node:timers/promises";
import { v4, v7 } from "uuid";
import { root } from "../kill/bundle.ts";

const secret = "a-secret-for-the-load-test-only";

/** What devices felt after three seconds: milliseconds from sending a batch to its acknowledgement. */
export interface Load {
  readonly acknowledged: number;
  readonly failed: number;
  readonly p50: number;
  readonly p99: number;
  readonly longest: number;
  /** Resident memory of the server at the end, MB. */
  readonly memory: number;
  /** Processor time that the server took for one batch, ms: the figure that other work on the machine changes least. */
  readonly processor: number;
}

/**
 * The built command as a server on a log, and devices that each send one reading in a batch of its own
 * every second, over connections that stay open, each with a key of its own.
 *
 * @param place file or postgres://… of an empty log.
 * @param perDevice batches a second of one device.
 */
export async function measureLoad({
  place,
  port,
  devices,
  seconds,
  perDevice = 1,
}: {
  place: string;
  port: number;
  devices: number;
  seconds: number;
  perDevice?: number;
}): Promise<Load> {
  const server = spawn(
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
  await once(server.stdout, "data");
  try {
    const keys = await pairAll(port, devices);
    const before = await processorOf(server.pid ?? 0);
    const took: number[] = [];
    let acknowledged = 0;
    let failed = 0;
    const warm = performance.now() + 3000;
    const end = performance.now() + seconds * 1000;
    const work = keys.map(async (key, i) => {
      const agent = new Agent({ keepAlive: true, maxSockets: 1 });
      const trial = v4();
      const every = 1000 / perDevice;
      await pause((i / devices) * every);
      for (let next = performance.now(); next < end; next += every) {
        await pause(Math.max(0, next - performance.now()));
        const began = performance.now();
        const body = { events: [reading(trial)] };
        const { status, text } = await ask(port, "POST", `/api/trials/${trial}/events`, {
          key,
          body,
          agent,
        });
        if (status === 200) {
          acknowledged++;
          // The first seconds compile the server's code; they are not what a shop feels all day.
          if (began > warm) took.push(performance.now() - began);
        } else if (failed++ === 0) console.error(status, text);
      }
      agent.destroy();
    });
    await Promise.all(work);
    const memory = await memoryOf(server.pid ?? 0);
    const processor = ((await processorOf(server.pid ?? 0)) - before) / acknowledged;
    took.sort((a, b) => a - b);
    const at = (part: number) =>
      took[Math.min(took.length - 1, Math.floor(part * took.length))] ?? NaN;
    return {
      ...{ acknowledged, failed, p50: at(0.5), p99: at(0.99), longest: at(1) },
      ...{ memory, processor },
    };
  } finally {
    server.kill("SIGTERM");
    await once(server, "exit");
  }
}

function reading(trial: string) {
  const at = new Date().toISOString();
  return {
    ...{ id: v7(), trial, at, device: "logger 1", type: "reading-taken", v: 1 },
    body: {
      ...{ stage: "run", quantity: "vent-temperature", form: "steady" },
      value: { value: 7.3, unit: "°C" },
      when: at,
    },
  };
}

/** Ten shops, whose owners pair the devices. */
async function pairAll(port: number, devices: number): Promise<string[]> {
  const keys: string[] = [];
  let owner = "";
  for (let i = 0; keys.length < devices; i++) {
    // An address of its own for each: one address may try only so often.
    const from = `10.0.${Math.floor(i / 200)}.${i % 200}`;
    const body = { name: `shop ${i}` };
    const made =
      i % 20 === 0
        ? await ask(port, "POST", "/api/workspaces", { key: secret, body, from })
        : await ask(port, "POST", "/api/pairings", { key: owner, body: { role: "tester" }, from });
    const { code } = JSON.parse(made.text) as { code: string };
    const redeem = { body: { code, device: `device ${i}` }, from };
    const paired = await ask(port, "POST", "/api/pairings/redeem", redeem);
    const { key } = JSON.parse(paired.text) as { key: string };
    if (i % 20 === 0) owner = key;
    keys.push(key);
  }
  return keys;
}

function ask(
  port: number,
  method: string,
  path: string,
  {
    key,
    body,
    from = "10.1.1.1",
    agent,
  }: { key?: string; body?: unknown; from?: string; agent?: Agent },
) {
  const text = JSON.stringify(body);
  return new Promise<{ status: number; text: string }>((resolve, reject) => {
    const sent = request(
      {
        ...{ host: "127.0.0.1", port, method, path },
        ...(agent === undefined ? {} : { agent }),
        headers: {
          "content-type": "application/json",
          "content-length": Buffer.byteLength(text),
          "x-forwarded-for": from,
          ...(key === undefined ? {} : { authorization: `Bearer ${key}` }),
        },
      },
      (answer) => {
        let got = "";
        answer.setEncoding("utf8").on("data", (part: string) => (got += part));
        answer.on("end", () => {
          resolve({ status: answer.statusCode ?? 0, text: got });
        });
      },
    );
    sent.on("error", reject);
    sent.end(text);
  });
}

async function memoryOf(pid: number): Promise<number> {
  const status = await readFile(`/proc/${pid}/status`, "utf8").catch(() => "");
  return Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? NaN) / 1024;
}

/** User and system time so far, ms; the kernel counts in hundredths of a second. */
async function processorOf(pid: number): Promise<number> {
  const stat = await readFile(`/proc/${pid}/stat`, "utf8").catch(() => "");
  const fields = stat.split(") ").at(-1)?.split(" ") ?? [];
  return 10 * (Number(fields[11]) + Number(fields[12]));
}
