import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { handOn } from "./walk/hand.ts";
import { buildApp, endAll, openHouse } from "./walk/house.ts";

/** What must cross the bay's network before a reading can be typed. */
const MOST = 200_000;

let browser: Browser;
let url: string;

beforeAll(async () => {
  browser = await launchChromium();
  url = await openHouse(await buildApp());
});
afterAll(async () => {
  await browser.close();
  await endAll();
});

test("the capture screens come with less than 200 kB of packed script", async () => {
  const context = await browser.newContext({ serviceWorkers: "block", reducedMotion: "reduce" });
  const page = await context.newPage();
  await page.goto(url);
  await handOn(page).press("Open the demonstration", "Plan");
  const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
  for (const [screen, usable] of [
    ["stage/prove/-/reading/low-side", "#reading-steady"],
    ["stage/prove/-/transfer", "select"],
    ["stage/prove/-/note", "textarea"],
    ["stage/prove/-", ".requirement"],
  ] as const) {
    // A window of its own with nothing cached in memory, over the same device's log.
    const fresh = await context.newPage();
    const devtools = await context.newCDPSession(fresh);
    await devtools.send("Network.enable");
    await devtools.send("Network.setCacheDisabled", { cacheDisabled: true });
    const scripts = new Map<string, number>();
    const names = new Map<string, string>();
    devtools.on("Network.responseReceived", ({ requestId, response }) => {
      if (response.mimeType === "text/javascript") names.set(requestId, response.url);
    });
    devtools.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
      if (names.has(requestId)) scripts.set(requestId, encodedDataLength);
    });
    await fresh.goto(`${url}/#/trial/${trial}/${screen}`);
    await fresh.locator(`main ${usable}`).first().waitFor();
    const bytes = [...scripts.values()].reduce((sum, one) => sum + one, 0);
    expect(bytes, screen).toBeGreaterThan(50_000);
    expect(bytes, screen).toBeLessThan(MOST);
    await fresh.close();
  }
  await context.close();
});
