import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { storeHouse } from "./store-house.ts";

/** Names that store-page.ts puts into its page. */
declare const caseNames: string[];
declare const runCase: (name: string) => Promise<string | undefined>;

const stops: (() => Promise<unknown>)[] = [];
let page: Page;

beforeAll(async () => {
  const { url, end } = await storeHouse("test/browser/store-page.ts");
  stops.push(end);
  const browser = await launchChromium();
  stops.push(() => browser.close());
  page = await browser.newPage();
  await page.goto(url);
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
