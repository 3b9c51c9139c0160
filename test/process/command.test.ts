import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { note, trialId } from "../doors/sample-events.ts";
import { root } from "../kill/bundle.ts";

// The built command in a process of its own: what only real streams, signals and exit codes show.
const folder = mkdtempSync(join(tmpdir(), "coldproof-process-"));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

function coldproof(...args: string[]) {
  return spawn(process.execPath, [join(root, "bin/coldproof.mjs"), ...args], {
    cwd: folder,
    env: { ...process.env, COLDPROOF_DATA: join(folder, "log.sqlite"), PORT: "0" },
    stdio: "pipe",
  });
}

async function ended(child: ReturnType<typeof coldproof>, input?: string) {
  let out = "";
  let err = "";
  child.stdout.setEncoding("utf8").on("data", (part: string) => (out += part));
  child.stderr.setEncoding("utf8").on("data", (part: string) => (err += part));
  child.stdin.on("error", () => undefined);
  child.stdin.end(input);
  const [code] = (await once(child, "close")) as [number | null];
  return { code, out, err };
}

test("exit codes: 0 answer, 1 wrong use, 2 invalid input, 3 no answer", async () => {
  const codes = [
    '{"fluid":"R134a","T":300}',
    '{"fluid":"R134a","T":"hot"}',
    '{"fluid":"R134a","T":374.5}',
  ].map(async (json) => (await ended(coldproof("compute", "saturation", "--json", json))).code);
  expect(await Promise.all(codes)).toEqual([0, 2, 3]);
  expect((await ended(coldproof("compute", "--none"))).code).toBe(1);
});

test("--lines answers a large input through real pipes, in order", async () => {
  const count = 20_000;
  const input = Array.from({ length: count }, (_, i) =>
    i % 10 === 0 ? "not json\n" : `{"fluid":"R134a","T":${250 + (i % 100)}}\n`,
  );
  const { code, out, err } = await ended(
    coldproof("compute", "saturation", "--lines"),
    input.join(""),
  );
  expect([code, err]).toEqual([0, ""]);
  const lines = out.split("\n").slice(0, -1);
  expect(lines).toHaveLength(count);
  lines.forEach((line, i) => {
    const { error, result } = JSON.parse(line) as { error?: object; result?: { T: number } };
    expect(i % 10 === 0 ? error !== undefined : result?.T === 250 + (i % 100)).toBe(true);
  });
});

test("--lines ends quietly when its reader leaves", async () => {
  const child = coldproof("compute", "saturation", "--lines");
  child.stdout.once("data", () => child.stdout.destroy());
  const line = '{"fluid":"R134a","T":300}\n';
  const { code, err } = await ended(child, line.repeat(20_000));
  expect([code, err]).toEqual([0, ""]);
});

test("serves the app and its demonstration until SIGTERM, then ends with 0", async () => {
  const child = coldproof("serve");
  const input = '{"fluid":"R134a","T":300}';
  const [said] = (await once(child.stdout.setEncoding("utf8"), "data")) as [string];
  const url = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0] ?? "";
  const page = await fetch(url);
  expect(page.headers.get("content-security-policy")).toContain("default-src 'self'");
  expect(await page.text()).toContain("<title>Coldproof</title>");
  const shown = await fetch(`${url}/demonstration/hill-town.json`);
  const post = (path: string, body: string) => {
    const headers = { "content-type": "application/json" };
    return fetch(`${url}/api/${path}`, { method: "POST", headers, body });
  };
  const imported = await post("trials/import", await shown.text());
  expect(imported.status).toBe(200);
  const { trial } = (await imported.json()) as { trial: string };
  // A report takes seconds; devices and short calculations do not wait for it.
  const report = fetch(`${url}/api/trials/${trial}/report`).then((answer) => answer.text());
  const first = Promise.race([
    report,
    post(`trials/${trialId(1)}/events`, JSON.stringify({ events: [note(1)] })),
  ]);
  expect(await first).toMatchObject({ status: 200 });
  const computed = Promise.race([report, post("calculations/saturation", input)]);
  expect(await computed).toMatchObject({ status: 200 });
  const answer = (await ((await computed) as Response).json()) as { kind: string };
  const printed = await ended(coldproof("compute", "saturation", "--json", input));
  expect(answer).toEqual({ kind: "answer", ...(JSON.parse(printed.out) as object) });
  expect(await report).toContain("</html>");
  child.kill("SIGTERM");
  expect(await once(child, "exit")).toEqual([0, null]);
  const listed = await ended(coldproof("trial", "list"));
  expect(listed.out).toContain(trial);
});

test("npm start serves, and ends with the npm that started it", async () => {
  const npm = spawn("npm", ["start", "--", "--port", "0"], {
    cwd: root,
    env: { ...process.env, COLDPROOF_DATA: join(folder, "started.sqlite") },
    stdio: ["ignore", "pipe", "ignore"],
  });
  const url = await new Promise<string>((resolve) => {
    let said = "";
    npm.stdout.setEncoding("utf8").on("data", (part: string) => {
      said += part;
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(said);
      if (found) resolve(found[0]);
    });
  });
  expect((await fetch(url)).status).toBe(200);
  npm.kill("SIGTERM");
  await expect.poll(() => fetch(url).catch(() => "gone"), { timeout: 10_000 }).toBe("gone");
});
