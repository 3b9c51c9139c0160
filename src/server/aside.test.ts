import { Worker } from "node:worker_threads";
import { afterEach, expect, test } from "vitest";
import { Busy, workAside } from "./aside.ts";

/** A thread in the place of ours: says what it was given, breaks down at will. */
const program = `
  const { parentPort } = require("node:worker_threads");
  let pieces = [];
  parentPort.on("message", (request) => {
    if (request.kind === "report") pieces = [];
    if (request.kind === "piece") pieces.push(request.text);
    if (request.kind === "end") parentPort.postMessage({ kind: "report", html: pieces.join("") });
    if (request.kind !== "compute") return;
    if (request.name === "end") process.exit(3);
    if (request.name === "throw") throw new Error("nobody caught this");
    if (request.name === "fault") parentPort.postMessage({ kind: "fault", trace: "a trace" });
    else parentPort.postMessage({ kind: "computed", answer: request.input });
  });`;

let started = 0;
const ends: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
  started = 0;
});

function aside() {
  const made = workAside(() => {
    started++;
    return new Worker(program, { eval: true });
  });
  ends.push(made.end);
  return made;
}
async function* log(...texts: (string | Error)[]) {
  for (const text of texts) {
    await new Promise((next) => setImmediate(next));
    if (text instanceof Error) throw text;
    yield text;
  }
}

test("answers in order, on one thread for calculations and one for reports", async () => {
  const { compute, report } = aside();
  const all = [1, 2, 3].map((input) => compute("echo", input));
  const page = report(log("a", "b"), "si");
  expect(await Promise.all(all)).toEqual([1, 2, 3]);
  expect(await page).toBe("ab");
  expect(await Promise.all([report(log("c"), "si"), report(log("d"), "si")])).toEqual(["c", "d"]);
  expect(started).toBe(2);
});

test("a fault is thrown with its trace, and the thread goes on", async () => {
  const { compute } = aside();
  await expect(compute("fault", 1)).rejects.toThrow("a trace");
  expect(await compute("echo", 2)).toBe(2);
  expect(started).toBe(1);
});

test.for(["end", "throw"])("a thread that breaks down (%s) is replaced", async (name) => {
  const { compute } = aside();
  const both = [compute(name, 1), compute("echo", 2)];
  await expect(both[0]).rejects.toThrow(name === "end" ? "ended: 3" : "nobody caught this");
  expect(await both[1]).toBe(2);
  expect(started).toBe(2);
});

test("a log that cannot be read leaves nothing in the next report", async () => {
  const { report } = aside();
  const away = new Error("the database is away");
  await expect(report(log("a", away), "si")).rejects.toThrow(away);
  expect(await report(log("b"), "si")).toBe("b");
  expect(started).toBe(1);
});

test("refuses what would have to wait for too many", async () => {
  const { compute } = aside();
  const all = Array.from({ length: 40 }, (_, i) => compute("echo", i));
  const outcomes = await Promise.allSettled(all);
  expect(outcomes.filter(({ status }) => status === "fulfilled")).toHaveLength(32);
  const refused = outcomes.find(({ status }) => status === "rejected");
  expect(refused).toMatchObject({ reason: expect.any(Busy) as Busy });
  expect(await compute("echo", 1)).toBe(1);
});
