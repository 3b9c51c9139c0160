import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { terminal } from "../../test/doors/terminal.ts";
import { compute } from "../calculations/index.ts";
import { renderReport, type SigningKey, type UnitSystem } from "../report/index.ts";
import type { StoredEvent } from "../trial/index.ts";

const folder = mkdtempSync(join(tmpdir(), "coldproof-verify-"));
const at = (name: string) => join(folder, name);
afterAll(() => {
  rmSync(folder, { recursive: true });
});
const report = (events: readonly StoredEvent[], units: UnitSystem, key?: SigningKey) =>
  renderReport(events, {
    generatedAt: "2026-06-20T12:00:00Z",
    units,
    program: "0.0.0",
    ...(key !== undefined && { key }),
  });
const file = {
  format: "coldproof-trial",
  version: 1,
  trial: trialId(1),
  events: [note(1), note(2)],
};
writeFileSync(at("in.json"), JSON.stringify(file));

test("a key is made once, for its owner alone, and shows its public part", async () => {
  const made = await terminal(["key", "make", at("key")]);
  expect([made.code, made.out]).toEqual([0, expect.stringMatching(/^Public key [0-9a-f]{64}\n$/)]);
  expect(statSync(at("key")).mode & 0o777).toBe(0o600);
  expect((await terminal(["key", "show", at("key")])).out).toBe(made.out);
  const before = readFileSync(at("key"), "utf8");
  const again = await terminal(["key", "make", at("key")]);
  expect([again.code, again.err.includes("left as it is")]).toEqual([1, true]);
  expect(readFileSync(at("key"), "utf8")).toBe(before);
  expect((await terminal(["key", "show", at("in.json")])).err).toContain("holds no key");
});

test("a signed report holds, an altered one exits with 4, another file with 2", async () => {
  const data = ["--data", at("a.sqlite")];
  await terminal(["trial", "import", at("in.json"), ...data]);
  const write = [
    "trial",
    "report",
    trialId(1),
    "--sign",
    at("key"),
    "--out",
    at("r.html"),
    ...data,
  ];
  expect((await terminal(write, { report })).code).toBe(0);
  const sound = await terminal(["trial", "verify", at("r.html")]);
  expect([sound.code, sound.out.endsWith("The report holds.\n")]).toEqual([0, true]);
  expect(sound.out).toContain(
    readFileSync(at("r.html"), "utf8").match(/"publicKey":"([^"]+)/)?.[1],
  );

  writeFileSync(at("x.html"), readFileSync(at("r.html"), "utf8").replace("<h1", "<h1 "));
  const altered = await terminal(["trial", "verify", at("x.html")]);
  expect([altered.code, altered.out.includes("does NOT hold")]).toEqual([4, true]);
  const json = await terminal(["trial", "verify", at("x.html"), "--json"]);
  expect([json.code, JSON.parse(json.out)]).toMatchObject([
    4,
    { kind: "checked", sound: false, entries: 2, trial: trialId(1) },
  ]);
  const none = await terminal(["trial", "verify", at("in.json")]);
  expect([none.code, none.out.includes("cannot be checked")]).toEqual([2, true]);
  expect((await terminal(["trial", "verify", at("no.html")])).code).toBe(1);
  const unkeyed = ["trial", "report", trialId(1), "--sign", at("in.json"), ...data];
  expect((await terminal(unkeyed, { report })).code).toBe(1);
});

test("what is to be hidden is hidden in report and export, and the report still holds", async () => {
  const data = ["--data", at("a.sqlite")];
  const hide = ["--redact", "names,notes", "--hide", "phone"];
  const write = ["trial", "report", trialId(1), ...hide, "--out", at("h.html"), ...data];
  const written = await terminal(write, { report });
  expect([written.code, written.err]).toEqual([0, expect.stringContaining("phone → Device 1 (2)")]);
  expect(readFileSync(at("h.html"), "utf8")).not.toMatch(/note 1|phone/);
  expect((await terminal(["trial", "verify", at("h.html")])).code).toBe(0);
  const given = await terminal(["trial", "export", trialId(1), ...hide, ...data]);
  expect(given.out).not.toMatch(/note 1|"phone"/);
  const wrong = await terminal(["trial", "export", trialId(1), "--redact", "all", ...data]);
  expect([wrong.code, wrong.err.includes("it knows names")]).toEqual([1, true]);
});

test("trials are combined from their files, or it is said why not", async () => {
  const harbour = "data/demonstration/harbour.json";
  const hill = "data/demonstration/hill-town.json";
  const both = await terminal(["trial", "combine", harbour, hill], { compute });
  expect([both.code, both.out]).toEqual([0, expect.stringContaining("in equal conditions")]);
  const none = await terminal(["trial", "combine", at("in.json"), at("in.json")], { compute });
  expect([none.code, none.err.includes("No trial compares")]).toEqual([3, true]);
  const one = await terminal(["trial", "combine", hill], { compute });
  expect([one.code, one.err.includes("two trials or more")]).toEqual([2, true]);
}, 60_000);
