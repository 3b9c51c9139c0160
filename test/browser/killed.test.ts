import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { browserPath } from "./chromium.ts";
import { handOn } from "./walk/hand.ts";
import { builtApp, endAll, openHouse } from "./walk/house.ts";

/** The phone dies in the middle of an entry: what was saved is there, and what was half typed as well. */
const profile = mkdtempSync(join(tmpdir(), "coldproof-profile-"));
let url: string;

beforeAll(async () => {
  url = await openHouse(builtApp());
});
afterAll(async () => {
  await endAll();
  rmSync(profile, { recursive: true, force: true });
});

const open = (): Promise<BrowserContext> =>
  chromium.launchPersistentContext(profile, {
    executablePath: browserPath(),
    args: ["--no-sandbox"],
    viewport: { width: 390, height: 844 },
  });

/** Ends the whole browser at once, as a battery does. */
async function kill(context: BrowserContext): Promise<void> {
  const devtools = await context.browser()?.newBrowserCDPSession();
  const { processInfo } = (await devtools?.send("SystemInfo.getProcessInfo")) ?? {
    processInfo: [],
  };
  const main = processInfo.find(({ type }) => type === "browser");
  if (!main) throw new RangeError("the browser does not name its process");
  const gone = new Promise((resolve) => context.once("close", resolve));
  process.kill(main.id, "SIGKILL");
  await gone;
}

async function arrive(context: BrowserContext, at: string): Promise<Page> {
  const page = context.pages()[0] ?? (await context.newPage());
  page.setDefaultTimeout(15_000);
  await page.goto(at);
  await page.getByRole("heading", { level: 1 }).waitFor();
  return page;
}

test("killed in mid-entry, three times", async () => {
  let context = await open();
  let page = await arrive(context, url);
  await handOn(page).press("Open the demonstration", "Plan");
  const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
  for (let round = 0; round < 3; round++) {
    await handOn(page).open("stage/prove/-/note", "A note");
    await handOn(page).type("Note", `Saved before the battery died, ${round}`);
    await handOn(page).press("Save the note", "Prove");
    await handOn(page).open("stage/prove/-/reading/low-side", "Low side");
    await page.locator("#reading-steady").fill(`${30 + round}`);
    // A draft is written with every keystroke; one turn of the disk is what a person cannot outrun.
    await page.waitForTimeout(200);
    await kill(context);
    context = await open();
    page = await arrive(context, `${url}/#/trial/${trial}/stage/prove/-/reading/low-side`);
    await page.locator("#reading-steady").waitFor();
    expect(await page.locator("#reading-steady").inputValue()).toBe(`${30 + round}`);
  }
  await handOn(page).open("log", "The log");
  const log = await page.locator("main").innerText();
  for (let round = 0; round < 3; round++) {
    expect(log.split(`Saved before the battery died, ${round}`)).toHaveLength(2);
  }
  await context.close();
});
