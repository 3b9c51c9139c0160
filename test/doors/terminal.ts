import { Readable, Writable } from "node:stream";
import { type CliDeps, runCli } from "../../src/cli/index.ts";
import { openStore } from "../../src/store/index.ts";
import { plainCalculation } from "./plain-calculation.ts";

/** A stream that keeps what is written to it. */
export class Kept extends Writable {
  text = "";
  override _write(chunk: Buffer, _: BufferEncoding, done: () => void): void {
    this.text += chunk.toString();
    done();
  }
}

/** Runs the command in this process: what it wrote, and what it ended with. */
export async function terminal(
  argv: readonly string[],
  { input = [], ...change }: Partial<CliDeps> & { input?: Iterable<Uint8Array | string> } = {},
) {
  const stdout = new Kept();
  const stderr = new Kept();
  const bytes = Array.from(input, (part) => (typeof part === "string" ? Buffer.from(part) : part));
  const code = await runCli(argv, {
    stdin: Readable.from(bytes),
    stdout,
    stderr,
    env: {},
    version: "0.0.0",
    defaultData: "/nowhere/at/all",
    ...plainCalculation,
    openStore,
    addresses: () => ["192.0.2.7"],
    report: (events) => `<p>${events.length} events</p>`,
    startServer: () => Promise.resolve({ kind: "refused", reason: "port-taken", port: 4780 }),
    untilStopped: () => Promise.resolve(),
    http: () => Promise.reject(new Error("no network in a test")),
    now: () => 1_781_426_460_000,
    pause: () => Promise.resolve(),
    ...change,
  });
  return { code, out: stdout.text, err: stderr.text };
}
