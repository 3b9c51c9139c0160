import { readFileSync } from "node:fs";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { builtApp, endAll, openHouse } from "./walk/house.ts";
import { handOn } from "./walk/hand.ts";
import { setUp } from "./walk/set-up.ts";
import { charge, evacuate, prove, recover, restore, run } from "./walk/stages.ts";

/** The whole job of the invented trial, on the built app with a real server, as a tester would do it. */
let browser: Browser;
let app: string;

beforeAll(async () => {
  app = builtApp();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
  await endAll();
});

const widths = [
  { name: "on a phone", viewport: { width: 390, height: 844 } },
  { name: "at a desk", viewport: { width: 1440, height: 900 } },
] as const;

/** A device with nothing on it; errors of the page fail the test. */
async function device(viewport: { width: number; height: number }, faults: string[]) {
  const context = await browser.newContext({ viewport, locale: "en-GB" });
  context.on("weberror", (error) => faults.push(error.error().message));
  // What the page's own policy refuses is told on the console alone.
  context.on("console", (message) => {
    if (/violat|Refused to/i.test(message.text())) faults.push(message.text());
  });
  return context;
}

async function arrive(context: BrowserContext, url: string): Promise<Page> {
  const page = await context.newPage();
  await page.goto(url);
  await page.getByRole("heading", { level: 1 }).waitFor();
  return page;
}

/** The ledger as a reader sees it: accounts with their masses, every posting. */
async function ledgerText(page: Page): Promise<string> {
  await handOn(page).unfold(".grams");
  return page.locator(".grams").innerText();
}

async function download(page: Page, button: string): Promise<string> {
  const [saved] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button }).click(),
  ]);
  return saved.path();
}

/** The report's whole text; the clock stands still, because the page says when it was written. */
async function savedReport(page: Page): Promise<string> {
  await page.clock.setFixedTime("2026-06-20T12:00:00Z");
  await handOn(page).open("stage/publish/-", "Publish");
  return readFileSync(await download(page, "Save the report"), "utf8");
}

describe.each(widths)("the walk $name", ({ viewport }) => {
  test("a trial from the question to a file that another house reads alike", async () => {
    const faults: string[] = [];
    const context = await device(viewport, faults);
    const page = await arrive(context, await openHouse(app));
    const hand = handOn(page);
    await setUp(hand);
    await prove(hand);
    await hand.open("stages", "Stages");
    await recover(hand);
    await evacuate(hand);
    await charge(hand);
    await run(hand);
    await restore(hand);

    await hand.open("stage/compare/-", "Compare");
    await page.locator(".fold-rows").first().waitFor();
    await hand.unfold(".fold-rows");
    await page
      .getByText(/^As measured\. Conditions were not equal: /)
      .first()
      .waitFor();
    await hand.open("grams", "Where every gram is");
    expect(await ledgerText(page)).toMatch(/211\.0\s±\s8\.5\sg\s*Can 1 → The vehicle/);
    const ledger = await ledgerText(page);

    const report = await savedReport(page);
    expect(report).toContain("Is product B as cold as the label refrigerant");
    const file = await download(page, "Export the trial file");

    const elsewhere = await device(viewport, faults);
    const there = await arrive(elsewhere, await openHouse(app));
    await there.locator("input[type=file]").setInputFiles(file);
    await there.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
    await handOn(there).open("grams", "Where every gram is");
    expect(await ledgerText(there)).toBe(ledger);
    expect(await savedReport(there)).toBe(report);
    expect(faults).toEqual([]);
    await Promise.all([context.close(), elsewhere.close()]);
  });
});

test("without a server the work goes on, says so, and follows later", async () => {
  const faults: string[] = [];
  const context = await device(widths[0].viewport, faults);
  const page = await arrive(context, await openHouse(app));
  const hand = handOn(page);
  await hand.press("Open the demonstration", "Plan");
  // The demonstration's own entries reach the server first: only the note is to be left over.
  await page.getByText("Saved", { exact: true }).waitFor();
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  // The demonstration itself must have reached the server, or it would be counted as well.
  await page.getByText("Saved", { exact: true }).waitFor();
  await context.setOffline(true);
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  await hand.open("stage/prove/-/note", "A note");
  await hand.type("Note", "The network is gone.");
  await hand.press("Save the note", "Prove");
  await page.getByText("1 entry only here").waitFor();
  await page.getByRole("link", { name: "Go to Recover", exact: true }).waitFor();
  await context.setOffline(false);
  await page.evaluate(() => dispatchEvent(new Event("online")));
  await page.getByText("Saved", { exact: true }).waitFor();
  expect(faults).toEqual([]);
  await context.close();
});
