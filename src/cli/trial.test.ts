import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { terminal } from "../../test/doors/terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldproof-cli-"));
const at = (name: string) => join(folder, name);
afterAll(() => {
  rmSync(folder, { recursive: true });
});
const exported = (events: unknown[]) =>
  JSON.stringify({ format: "coldproof-trial", version: 1, trial: trialId(1), events });
writeFileSync(at("in.json"), exported([note(1), note(2)]));

test("takes a file in, lists it, gives it out again", async () => {
  const data = ["--data", at("a.sqlite")];
  const empty = await terminal(["trial", "list", ...data]);
  expect(empty.out).toMatch(/^No trials yet/);
  const first = await terminal(["trial", "import", at("in.json"), ...data]);
  expect([first.code, first.out]).toEqual([
    0,
    `${trialId(1)}: 2 entries taken in, 0 were here before.\n`,
  ]);
  const again = await terminal(["trial", "import", at("in.json"), ...data]);
  expect(again.out).toContain("0 entries taken in, 2 were here before");
  expect((await terminal(["trial", "list", ...data])).out).toContain("2 entries  (not opened)");
  const list = await terminal(["trial", "list", "--json", ...data]);
  const trials = [{ trial: trialId(1), events: 2, title: null }];
  expect(JSON.parse(list.out)).toEqual({ trials });

  await terminal(["trial", "export", trialId(1), "--out", at("out.json"), ...data]);
  const [given, taken] = ["out.json", "in.json"].map((name) => readFileSync(at(name), "utf8"));
  expect(JSON.parse(given ?? "")).toEqual(JSON.parse(taken ?? ""));
  const report = await terminal(["trial", "report", trialId(1).slice(0, 8), ...data]);
  expect(report.out).toBe("<p>2 events</p>");
});

test("tables go into a folder, and the log among them comes back as the same trial", async () => {
  const data = ["--data", at("t.sqlite")];
  await terminal(["trial", "import", at("in.json"), ...data]);
  const tables = ["--tables", at("tables")];
  const { out } = await terminal(["trial", "export", trialId(1), ...tables, ...data]);
  expect(out).toContain("log.csv, readings.csv, runs.csv, masses.csv, dictionary.csv");
  const again = ["--data", at("t2.sqlite")];
  const taken = await terminal(["trial", "import", at("tables/log.csv"), ...again]);
  expect(taken.out).toContain("2 entries taken in");
  await terminal(["trial", "export", trialId(1), "--out", at("t2.json"), ...again]);
  await terminal(["trial", "export", trialId(1), "--out", at("t1.json"), ...data]);
  expect(readFileSync(at("t2.json"), "utf8")).toBe(readFileSync(at("t1.json"), "utf8"));
  const wrong = await terminal(["trial", "import", at("tables/runs.csv"), ...again]);
  expect([wrong.code, wrong.err.includes("a first line that names")]).toEqual([2, true]);
});

test("the environment names the data file, an option goes before it", async () => {
  const env = { COLDPROOF_DATA: at("env.sqlite") };
  await terminal(["trial", "import", at("in.json")], { env });
  expect((await terminal(["trial", "list"], { env })).out).toContain("2 entries");
  const other = await terminal(["trial", "list", "--data", at("other.sqlite")], { env });
  expect(other.out).toMatch(/^No trials/);
});

test("says what is wrong with a file, and takes nothing of it", async () => {
  const data = ["--data", at("b.sqlite")];
  writeFileSync(at("bad.json"), exported([note(1), { ...note(2), v: 2 }]));
  const bad = await terminal(["trial", "import", at("bad.json"), ...data]);
  expect(bad.code).toBe(2);
  expect(bad.err).toContain("v: found 2");
  writeFileSync(at("text.json"), "not json");
  expect((await terminal(["trial", "import", at("text.json"), ...data])).code).toBe(2);
  const missing = await terminal(["trial", "import", at("missing.json"), ...data]);
  expect([missing.code, missing.err]).toEqual([
    1,
    `coldproof: ${at("missing.json")} cannot be read. Check its name.\n`,
  ]);
  expect((await terminal(["trial", "list", ...data])).out).toMatch(/^No trials/);
});

test("a conflict, an unknown trial, a data file that is none: 1 and a sentence", async () => {
  const data = ["--data", at("c.sqlite")];
  await terminal(["trial", "import", at("in.json"), ...data]);
  writeFileSync(at("other.json"), exported([note(1, { text: "other" })]));
  const conflict = await terminal(["trial", "import", at("other.json"), ...data]);
  expect(conflict.code).toBe(1);
  expect(conflict.err).toContain(note(1).id);
  expect((await terminal(["trial", "export", trialId(5), ...data])).err).toContain(
    "no trial begins",
  );
  const none = await terminal(["trial", "list", "--data", at("in.json")]);
  expect([none.code, none.err.includes("not a log")]).toEqual([1, true]);
  const out = ["--out", at("no/such/folder")];
  expect((await terminal(["trial", "export", trialId(1), ...out, ...data])).code).toBe(1);
});

test("serves until it is told to stop, on the port that was asked for", async () => {
  const steps: unknown[] = [];
  const data = ["--data", at("d.sqlite")];
  const startServer = (_: unknown, where: { port: number; exact: boolean }) => {
    steps.push(where);
    const stop = () => Promise.resolve(void steps.push("stopped"));
    return Promise.resolve({
      kind: "listening",
      url: "http://127.0.0.1:1",
      port: 1,
      stop,
    } as const);
  };
  const untilStopped = () => Promise.resolve(void steps.push("asked to stop"));
  const { code, out } = await terminal(["serve", ...data], { startServer, untilStopped });
  expect([code, steps]).toEqual([0, [{ port: 4780, exact: false }, "asked to stop", "stopped"]]);
  expect(out).toContain("Coldproof is at http://127.0.0.1:1\n");
  await terminal(["serve", "--port", "5000", ...data], { startServer, untilStopped });
  await terminal(["serve", ...data], { startServer, untilStopped, env: { PORT: "5001" } });
  expect(steps).toContainEqual({ port: 5000, exact: true });
  expect(steps).toContainEqual({ port: 5001, exact: true });
  expect((await terminal(["serve", "--port", "70000", ...data])).err).toContain("from 0 to 65535");
  expect((await terminal(["serve", ...data])).err).toContain("port 4780 is taken");
});
