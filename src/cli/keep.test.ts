import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { damage } from "../../test/doors/damage.ts";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { testCertificate } from "../../test/doors/https/certificate.ts";
import { terminal } from "../../test/doors/terminal.ts";
import type { Where } from "./deps.ts";

const folder = mkdtempSync(join(tmpdir(), "coldproof-keep-"));
const at = (name: string) => join(folder, name);
afterAll(() => {
  rmSync(folder, { recursive: true });
});
const events = [note(1), note(2)];
const file = { format: "coldproof-trial", version: 1, trial: trialId(1), events };
writeFileSync(at("in.json"), JSON.stringify(file));

test("backs up, verifies and restores, by one command each", async () => {
  const data = ["--data", at("a.sqlite")];
  await terminal(["trial", "import", at("in.json"), ...data]);
  const verified = await terminal(["log", "verify", ...data]);
  expect([verified.code, verified.out]).toEqual([
    0,
    expect.stringMatching(/^The log holds 2 entries of 1 trials.*sound\.\nSeal [0-9a-f]{64}\n$/),
  ]);
  const seal = verified.out.split("\n")[1];
  for (const name of ["copy.jsonl", "copy.sqlite"]) {
    const made = await terminal(["backup", at(name), ...data]);
    expect([made.code, made.out]).toEqual([0, expect.stringContaining(seal ?? "")]);
    const target = ["--data", at(`from-${name}.sqlite`)];
    const restored = await terminal(["restore", at(name), ...target]);
    expect(restored.out).toContain("2 entries added, 0 were here before");
    expect((await terminal(["log", "verify", ...target])).out).toContain(seal);
  }
});

test("says where a log or a copy is broken, and ends with 2; 1 for a file that is not there", async () => {
  const data = ["--data", at("b.sqlite")];
  await terminal(["trial", "import", at("in.json"), ...data]);
  damage(at("b.sqlite"), "update event set content = replace(content, 'note 2', 'note 3')");
  const verified = await terminal(["log", "verify", ...data]);
  expect([verified.code, verified.err]).toEqual([2, expect.stringContaining("entry 2 of trial")]);
  expect((await terminal(["backup", at("b.jsonl"), ...data])).code).toBe(2);
  const good = ["--data", at("c.sqlite")];
  expect((await terminal(["restore", at("in.json"), ...good])).code).toBe(2);
  expect((await terminal(["restore", at("none"), ...good])).code).toBe(1);
});

test("makes workspaces and codes for their owners", async () => {
  const data = ["--data", at("d.sqlite")];
  const made = await terminal([
    "workspace",
    "create",
    "Hill Town",
    "--address",
    "https://s.example/",
    ...data,
  ]);
  expect(made.out).toMatch(/Pairing code (\w{4}-){2}\w{4} makes one device owner/);
  expect(made.out).toContain("https://s.example/#/pair/");
  const list = await terminal(["workspace", "list", ...data]);
  const [id = ""] = /^[0-9a-f-]{36}/m.exec(list.out) ?? [];
  expect(list.out).toContain(`${id}  Hill Town  0 devices`);
  const pair = await terminal(["workspace", "pair", id, "--role", "viewer", ...data]);
  expect(pair.out).toContain("makes one device viewer");
  expect((await terminal(["workspace", "pair", "none", ...data])).code).toBe(1);
});

async function served(...options: string[]) {
  const seen: Where[] = [];
  const startServer = (_: unknown, where: Where) => {
    seen.push(where);
    const stop = () => Promise.resolve();
    return Promise.resolve({
      kind: "listening",
      url: "http://127.0.0.1:4781",
      port: 4781,
      stop,
    } as const);
  };
  const data = ["--data", at("e.sqlite")];
  const said = await terminal(["serve", ...options, ...data], { startServer });
  return { ...said, where: seen[0] };
}

test("shares with the shop's network when told so, with a code and its picture", async () => {
  const { where, out } = await served("--lan");
  expect(where).toMatchObject({
    host: "0.0.0.0",
    sharing: { names: ["192.0.2.7"], trustLoopback: true },
  });
  expect(where?.sharing?.address()).toBe("http://192.0.2.7:4781");
  expect(out).toMatch(/http:\/\/192\.0\.2\.7:4781\/#\/pair\/(\w{4}-){2}\w{4}\n/);
  expect(out).toContain("▀");
  expect((await served()).where).toEqual({ port: 4780, exact: false });
});

test("behind a proxy nobody is trusted for his place; https needs both files", async () => {
  const { where } = await served("--behind-proxy", "--address", "https://shop.example");
  expect(where).toMatchObject({ sharing: { names: ["shop.example"], trustLoopback: false } });
  expect(where?.sharing?.address()).toBe("https://shop.example");
  expect(where?.host).toBeUndefined();
  expect((await served("--address", "shop")).code).toBe(1);
  expect((await served("--cert", at("none.pem"))).err).toContain("both --cert and --key");
  expect((await served("--cert", at("none.pem"), "--key", at("none.pem"))).code).toBe(1);
});

test("with a certificate the code that pairs is an https address", async () => {
  const { certFile, keyFile, cert, key } = testCertificate;
  const { where, out } = await served("--lan", "--cert", certFile, "--key", keyFile);
  expect(where?.tls).toEqual({ cert, key });
  expect(out).toMatch(/open https:\/\/192\.0\.2\.7:4781\/#\/pair\//);
  const swapped = await served("--lan", "--cert", keyFile, "--key", certFile);
  expect(swapped.code).toBe(1);
  expect(swapped.err).toContain("are no certificate and its key in PEM");
});
