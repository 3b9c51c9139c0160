import { readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { exportTrial, parseExport, redacted } from "../../src/trial/index.ts";
import { launchChromium } from "./chromium.ts";
import { grave } from "./grave.ts";
import { axeSource, builtApp, endAll, inputs, openHouse } from "./walk/house.ts";

/** A report is saved, dropped on the app again, holds; with one byte altered it does not. */
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

async function saved(page: Page, button: string): Promise<string> {
  const [file] = await Promise.all([
    page.waitForEvent("download", { timeout: 60_000 }),
    page.getByRole("button", { name: button }).click(),
  ]);
  return readFileSync(await file.path(), "utf8");
}

async function given(page: Page, name: string, text: string): Promise<string> {
  const file = join(tmpdir(), `coldproof-${process.pid}-${name}`);
  writeFileSync(file, text);
  await page.locator("input[type=file]").setInputFiles(file);
  const heading = page.getByRole("heading", { name: /^This (report|file)/ });
  await heading.waitFor({ timeout: 60_000 });
  return heading.innerText();
}

/** The demonstration as if another tester had done it: other entries, and nothing that names the first. */
function anotherTrial() {
  const file = parseExport(
    JSON.parse(readFileSync(join(inputs, "harbour.json"), "utf8")) as unknown,
  );
  if (file.kind !== "export") throw new Error("the demonstration does not parse");
  const { events } = redacted(file.events, { hide: ["vehicle"], words: [] });
  return exportTrial(events.filter(({ type }) => type !== "log-redacted"));
}

test("a signed, redacted report holds when it is dropped, and fails with a byte altered", async () => {
  const faults: string[] = [];
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  context.on("weberror", (error) => faults.push(error.error().message));
  const page = await context.newPage();
  const url = await openHouse(app);
  await page.goto(url);
  await page.getByRole("button", { name: "Open the demonstration" }).click();
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  await page.evaluate(() => {
    location.hash = location.hash.replace(/stage.*/, "stage/publish/-");
  });
  await page.getByText("Hide names, places or words first").click();
  await page.getByLabel("places").check();
  await page.getByText("Place 1").first().waitFor();
  await page.getByText("Sign reports with a key").click();
  await page.getByRole("button", { name: "Make a key on this device" }).click();
  const key = await page.locator(".publish-key code").innerText();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  const html = await saved(page, "Save the report");
  expect(html).toContain("Redacted before publishing");

  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.goto(`${url}/#/`);
  await context.setOffline(true);
  expect(await given(page, "report.html", html)).toBe("This report holds");
  await page.getByText(key).waitFor();
  expect(await page.locator(".checks li").count()).toBe(5);
  await page.evaluate(axeSource);
  expect(await grave(page)).toEqual([]);
  await page.getByRole("button", { name: "Close" }).click();

  const altered = html.replace("</h1>", " </h1>");
  expect(await given(page, "altered.html", altered)).toBe("This report does not hold");
  await page.getByText("The file: fails").waitFor();
  await page.getByText("The page: fails").waitFor();
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.getByRole("button", { name: "Close" }).click();
  expect(await given(page, "other.html", "<html></html>")).toBe("This file is no sealed report");
  await page.getByRole("button", { name: "Close" }).click();

  expect(await given(page, "again.html", html)).toBe("This report holds");
  await page.getByRole("button", { name: "Take its log in" }).click();
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();

  const second = join(tmpdir(), `coldproof-${process.pid}-second.json`);
  writeFileSync(second, JSON.stringify(anotherTrial()));
  await page.goto(`${url}/#/combine`);
  await page.getByRole("heading", { level: 1, name: "Compare trials" }).waitFor();
  await page.getByRole("checkbox").first().check();
  await page.locator("input[type=file]").setInputFiles(second);
  await page.getByRole("button", { name: "Compare 2 trials" }).click();
  await page
    .getByText(/^Mean|Mean /)
    .first()
    .waitFor({ timeout: 60_000 });
  expect(await grave(page)).toEqual([]);
  await page.setViewportSize({ width: 360, height: 800 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  expect(faults).toEqual([]);
  await context.close();
}, 180_000);
