import { spawn } from "node:child_process";
import { once } from "node:events";
import { cpSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { xorshift } from "../kill/random.ts";
import { root } from "../kill/bundle.ts";

// A checkout of its own, with nothing but the scripts, so that the real one is left alone.
const checkout = mkdtempSync(join(tmpdir(), "coldproof-scripts-"));
cpSync(join(root, "scripts"), join(checkout, "scripts"), { recursive: true });
afterAll(() => {
  rmSync(checkout, { recursive: true });
});

function node(program: string) {
  return spawn(process.execPath, ["--input-type=module", "-e", program], {
    cwd: checkout,
    stdio: ["ignore", "pipe", "pipe"],
  });
}

/** Takes the lock, writes down that it has it, works for a while, writes down that it is done. */
const worker = (name: number) => `
  import { appendFileSync } from "node:fs";
  import { withLock } from "./scripts/steps/lock.mjs";
  await withLock(async () => {
    appendFileSync("log", "begin ${name}\\n");
    await new Promise((resolve) => setTimeout(resolve, 40));
    appendFileSync("log", "end ${name}\\n");
  });`;

test("set-ups that start at once work one after the other, also when some are killed", async () => {
  const rng = xorshift(3);
  const children = Array.from({ length: 12 }, (_, name) => {
    const child = node(worker(name));
    if (name % 4 === 0) setTimeout(() => child.kill("SIGKILL"), 100 + rng() * 300);
    return child;
  });
  await Promise.all(children.map((child) => once(child, "exit")));
  let inside: string | undefined;
  let ended = 0;
  for (const line of readFileSync(join(checkout, "log"), "utf8").trim().split("\n")) {
    const [step, name = ""] = line.split(" ");
    if (step === "begin") {
      // Only a killed one may have left without saying so.
      if (inside !== undefined) expect(Number(inside) % 4).toBe(0);
      inside = name;
    } else {
      expect(name).toBe(inside);
      inside = undefined;
      ended++;
    }
  }
  expect(ended).toBeGreaterThanOrEqual(9);
  expect(existsSync(join(checkout, ".stamps/lock"))).toBe(inside !== undefined);
});

test("a file put in place is whole for every reader", async () => {
  const program = `
    import { readFileSync } from "node:fs";
    import { replaceFile } from "./scripts/steps/checkout.mjs";
    for (let i = 0; i < 200; i++) replaceFile("target", String(i % 10).repeat(100_000));`;
  const writers = [node(program), node(program)];
  const running = Promise.all(writers.map((child) => once(child, "exit")));
  const done = { yes: false };
  void running.then(() => (done.yes = true));
  while (!done.yes) {
    await new Promise((resolve) => setTimeout(resolve, 1));
    if (!existsSync(join(checkout, "target"))) continue;
    const text = readFileSync(join(checkout, "target"), "utf8");
    expect(text).toBe(text.slice(0, 1).repeat(100_000));
  }
  expect(await running).toEqual([
    [0, null],
    [0, null],
  ]);
  expect(readdirSync(checkout).filter((name) => name.startsWith("target"))).toEqual(["target"]);
});

test("an old Node is told which one is needed", async () => {
  const child = node(`
    Object.defineProperty(process, "versions", { value: { ...process.versions, node: "18.20.1" } });
    const { setUp } = await import("./scripts/set-up.mjs");
    await setUp();`);
  const said = await new Promise<string>((resolve) => {
    let text = "";
    child.stderr.setEncoding("utf8").on("data", (part: string) => (text += part));
    child.on("close", () => {
      resolve(text);
    });
  });
  expect(child.exitCode).toBe(1);
  expect(said).toContain("Node 20.19 or newer is needed");
});
