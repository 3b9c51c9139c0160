import { writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BrowserContext, Page } from "playwright-core";
import { expect, test } from "vitest";
import { longLog } from "../../scripts/bench-trial.mjs";
import { handOn } from "../browser/walk/hand.ts";
import { visit } from "../browser/walk/visit.ts";

/** How long a phone waits: measured times, so this runs alone and not with `npm test`. */
const here = visit();

/** A phone of the middle class on the bay's wireless network: a quarter of this CPU, 9 Mbit/s, 60 ms. */
async function throttle(context: BrowserContext, page: Page): Promise<void> {
  const devtools = await context.newCDPSession(page);
  await devtools.send("Network.enable");
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const bytes = 9e6 / 8;
  await devtools.send("Network.emulateNetworkConditions", {
    offline: false,
    latency: 60,
    downloadThroughput: bytes,
    uploadThroughput: bytes,
  });
}

const median = (times: readonly number[]): number =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Infinity;

/** Notes when the field of a reading has been painted and the page is free to take a letter. */
const watchForm = (): void => {
  const here = window as unknown as { formAt?: number };
  const watcher = new MutationObserver(() => {
    if (!document.querySelector("#reading-steady")) return;
    watcher.disconnect();
    requestAnimationFrame(() => {
      setTimeout(() => {
        here.formAt = performance.now();
      });
    });
  });
  watcher.observe(document, { childList: true, subtree: true });
};
const formAt = (): number => (window as unknown as { formAt?: number }).formAt ?? Infinity;

interface Times {
  /** In the page, from the tap on its address until the form can be typed into, ms. */
  readonly form: number;
  /** Until a driver has typed: its own program has to be read by the slowed page first. */
  readonly typed: number;
}

async function timesToReading(kind: "first" | "installed"): Promise<Times[]> {
  const times: Times[] = [];
  for (let round = 0; round < 5; round++) {
    const context = await here.browser.newContext({
      serviceWorkers: kind === "first" ? "block" : "allow",
      viewport: { width: 390, height: 844 },
      isMobile: true,
      hasTouch: true,
    });
    const page = await context.newPage();
    await page.goto(here.url);
    await handOn(page).press("Open the demonstration", "Plan");
    const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
    if (kind === "installed") {
      await page.evaluate(async () => {
        await navigator.serviceWorker.ready;
      });
      await page.reload();
    }
    const fresh = await context.newPage();
    await fresh.addInitScript(watchForm);
    await throttle(context, fresh);
    const began = performance.now();
    await fresh.goto(`${here.url}/#/trial/${trial}/stage/prove/-/reading/low-side`, {
      waitUntil: "commit",
    });
    await fresh.locator("#reading-steady").fill("31");
    const typed = performance.now() - began;
    times.push({ form: await fresh.evaluate(formAt), typed });
    await context.close();
  }
  return times;
}

test.each(["first", "installed"] as const)(
  "a reading can be typed within a second, %s load",
  async (kind) => {
    const times = await timesToReading(kind);
    for (const what of ["form", "typed"] as const) {
      const each = times.map((one) => one[what].toFixed(0)).join(" ");
      console.log(`${kind} load, ${what}, ms: ${each}`);
    }
    expect(median(times.map(({ form }) => form))).toBeLessThan(1000);
  },
);

test.each(["stream", "readings"] as const)(
  "a trial of 200,000 events opens in two seconds: %s",
  async (kind) => {
    const events = longLog(kind, 200_000);
    const trial = events[0]?.trial ?? "";
    const file = join(tmpdir(), `coldproof-long-${process.pid}.json`);
    writeFileSync(file, JSON.stringify({ format: "coldproof-trial", version: 1, trial, events }));
    const context = await here.browser.newContext({ serviceWorkers: "block" });
    const page = await context.newPage();
    page.setDefaultTimeout(600_000);
    await page.goto(here.url);
    await page.locator("input[type=file]").setInputFiles(file);
    await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
    const times: number[] = [];
    for (let round = 0; round < 3; round++) {
      const fresh = await context.newPage();
      fresh.setDefaultTimeout(60_000);
      const began = performance.now();
      await fresh.goto(`${here.url}/#/trial/${trial}/stage/run/-`, { waitUntil: "commit" });
      await fresh.getByRole("heading", { level: 1, name: "Run" }).waitFor();
      times.push(performance.now() - began);
      await fresh.close();
    }
    console.log(
      `200,000 events (${kind}) open, ms: ${times.map((one) => one.toFixed(0)).join(" ")}`,
    );
    expect(median(times)).toBeLessThan(2000);
    await context.close();
  },
);
