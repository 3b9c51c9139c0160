import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import { audit, readAudit } from "../../scripts/audit.mjs";

/** An answer in the form that npm gives since its version 7, with invented packages. */
const answer = (found: Record<string, string>) => {
  const entries = Object.entries(found).map(([name, severity]) => {
    const via = [{ source: 1, name, severity, range: "<2.0.0", title: "an invented fault" }];
    const one: object = { name, severity, isDirect: true, via, effects: [], range: "<2.0.0" };
    return [name, one] as const;
  });
  return JSON.stringify(
    { auditReportVersion: 2, vulnerabilities: Object.fromEntries(entries), metadata: {} },
    null,
    2,
  );
};

test("a lock file without known faults is sound, with npm's notes around the answer or not", () => {
  const { kind } = readAudit(answer({}));
  expect(kind).toBe("sound");
  expect(readAudit(`npm warn something\n${answer({})}\nnpm notice {news}\n`).kind).toBe("sound");
});

test.for([
  ["low", "sound"],
  ["moderate", "sound"],
  ["high", "faulty"],
  ["critical", "faulty"],
] as const)("a fault of level %s: %s", ([level, kind]) => {
  const read = readAudit(answer({ "some-parser": level, "other-parser": "low" }));
  expect(read.kind).toBe(kind);
  if (kind === "faulty") expect(read.words).toContain(`some-parser <2.0.0: ${level}`);
});

test("a grave fault that does not fail the check is told", () => {
  const read = readAudit(answer({ "some-tool": "high" }), ["critical"]);
  expect(read.kind).toBe("sound");
  expect(read.words).toContain("some-tool <2.0.0: high");
});

test.for([
  ["", undefined],
  ["npm error network\n", undefined],
  ['{\n  "message": "405 Method Not Allowed",\n  "statusCode": 405\n}\n', "405"],
  ['{\n  "error": { "code": "ENOTFOUND", "summary": "not found" }\n}', "not found"],
  ['{\n  "vulnerabilities": null\n}', undefined],
] as const)("no answer is told as none: %s", ([output, why]) => {
  const read = readAudit(output);
  expect(read.kind).toBe("unknown");
  expect(read.words).toContain(why ?? "the registry gave no answer");
});

afterEach(() => {
  vi.unstubAllEnvs();
});

/** The check with a program in npm's place. */
async function auditWith(program: string, timeout?: number) {
  const folder = mkdtempSync(join(tmpdir(), "coldproof-audit-"));
  const file = join(folder, "npm-cli.cjs");
  writeFileSync(file, program);
  vi.stubEnv("npm_execpath", file);
  const said: string[] = [];
  const sound = await audit((line) => said.push(line), timeout);
  rmSync(folder, { recursive: true });
  return { sound, said };
}

test("fails on a grave fault of what is shipped, not on one of a tool", async () => {
  const [none, one] = [answer({}), answer({ "some-tool": "high" })].map((text) =>
    JSON.stringify(text),
  );
  const shipped = (yes: string, no: string) =>
    `console.log(process.argv.includes("--omit=dev") ? ${yes} : ${no}); process.exit(1);`;
  expect((await auditWith(shipped(one ?? "", one ?? ""))).sound).toBe(false);
  expect((await auditWith(shipped(none ?? "", one ?? ""))).sound).toBe(true);
});

test("does not wait for a registry that says nothing, and does not fail for it", async () => {
  const { sound, said } = await auditWith("setTimeout(() => {}, 60_000)", 200);
  expect(sound).toBe(true);
  expect(said).toHaveLength(2);
  expect(said[0]).toContain("not audited: the registry gave no answer");
});
