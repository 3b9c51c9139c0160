import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { build } from "vite";
import { listen, readSite } from "../../src/server/index.ts";
import { memoryServer } from "../doors/memory-server.ts";
import { root } from "../kill/bundle.ts";
import { launchChromium } from "./chromium.ts";

/** Names that store-page.ts puts into its page. */
declare const caseNames: string[];
declare const runCase: (name: string) => Promise<string | undefined>;

const stops: (() => Promise<unknown>)[] = [];
let page: Page;

beforeAll(async () => {
  const folder = mkdtempSync(join(tmpdir(), "coldproof-page-"));
  stops.push(() => {
    rmSync(folder, { recursive: true });
    return Promise.resolve();
  });
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: "error",
    build: {
      outDir: folder,
      lib: { entry: "test/browser/store-page.ts", formats: ["es"], fileName: () => "page.js" },
    },
  });
  writeFileSync(
    join(folder, "index.html"),
    '<!doctype html><meta charset="utf-8"><script type="module" src="/page.js"></script>',
  );
  const { handle } = await memoryServer({ site: readSite([{ prefix: "/", folder }]) });
  const server = await listen(handle, { port: 0, exact: true });
  if (server.kind === "refused") throw new Error(server.reason);
  stops.push(() => server.stop());
  const browser = await launchChromium();
  stops.push(() => browser.close());
  page = await browser.newPage();
  await page.goto(server.url);
  await page.waitForFunction(() => typeof runCase === "function");
});
afterAll(async () => {
  for (const stop of stops.reverse()) await stop();
});

test("the browser's store does what every store does, and what a device needs", async () => {
  const names = await page.evaluate(() => caseNames);
  expect(names.length).toBeGreaterThan(15);
  const problems: string[] = [];
  for (const name of names) {
    const problem = await page.evaluate((one) => runCase(one), name);
    if (problem !== undefined) problems.push(`${name}: ${problem}`);
  }
  expect(problems).toEqual([]);
});

test("a page under the app's policy can neither run inline script nor reach another site", async () => {
  const seen = await page.evaluate(async () => {
    const violated: string[] = [];
    document.addEventListener("securitypolicyviolation", (event) => {
      violated.push(event.effectiveDirective);
    });
    const script = document.createElement("script");
    script.textContent = "globalThis.inlineRan = true";
    document.head.append(script);
    await fetch("http://127.0.0.1:9/").catch(() => undefined);
    await new Promise((resolve) => setTimeout(resolve, 50));
    return { violated: violated.sort(), inlineRan: "inlineRan" in globalThis };
  });
  expect(seen).toEqual({ violated: ["connect-src", "script-src-elem"], inlineRan: false });
});
