import { readFileSync } from "node:fs";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { note } from "../doors/sample-events.ts";
import { liveOnly } from "./bay/live-only.ts";
import { lockedHouse, senderTo } from "./bay/locked-house.ts";
import { twoShops } from "./bay/shops.ts";
import { launchChromium } from "./chromium.ts";
import { handOn } from "./walk/hand.ts";
import { builtApp, endAll, openHouse } from "./walk/house.ts";

/** In the bay and on the road: without a network, with several devices, behind a server that asks for keys. */
let browser: Browser;
let app: string;
let url: string;

beforeAll(async () => {
  app = builtApp();
  browser = await launchChromium();
  url = await openHouse(app);
});
afterAll(async () => {
  await browser.close();
  await endAll();
});

async function arrive(context: BrowserContext, at: string): Promise<Page> {
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  await page.goto(at);
  await page.getByRole("heading", { level: 1 }).waitFor();
  return page;
}

/** Everything is in the device's cache: the app opens without a network from now on. */
const cached = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });

const saved = (page: Page) => page.getByText("Saved", { exact: true }).waitFor();

test("a browser finds nothing that keeps the app from being installed", async () => {
  const context = await browser.newContext();
  const page = await arrive(context, url);
  await cached(page);
  const devtools = await context.newCDPSession(page);
  const manifest = await devtools.send("Page.getAppManifest");
  expect(manifest.errors).toEqual([]);
  const { installabilityErrors } = await devtools.send("Page.getInstallabilityErrors");
  // A private window, as every context of a test is, is never installed from.
  const errors = installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito");
  expect(errors).toEqual([]);
  const sizes = await page.evaluate(async () => {
    const { icons } = (await (await fetch("/manifest.webmanifest")).json()) as {
      icons: { src: string; sizes: string; purpose: string }[];
    };
    return Promise.all(
      icons.map(async ({ src, sizes: said, purpose }) => {
        const image = new Image();
        image.src = src;
        await image.decode();
        const fits = said === "any" || said === `${image.naturalWidth}x${image.naturalHeight}`;
        return `${purpose} ${fits ? "fits" : said}`;
      }),
    );
  });
  expect(new Set(sizes)).toEqual(new Set(["any fits", "maskable fits"]));
  await context.close();
});

test("without a network the vehicle's model, the fluids and the report work", async () => {
  const context = await browser.newContext({ reducedMotion: "reduce" });
  const page = await arrive(context, url);
  await handOn(page).press("Open the demonstration", "Plan");
  await cached(page);
  await saved(page);
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  await context.setOffline(true);
  await page.reload();
  await handOn(page).open("stage/publish/-", "Publish");
  const [report] = await Promise.all([
    page.waitForEvent("download", { timeout: 60_000 }),
    page.getByRole("button", { name: "Save the report" }).click(),
  ]);
  expect(readFileSync(await report.path(), "utf8")).toContain("Six-seat harbour van");
  await handOn(page).open("stage/prove/-/reading/static-low", "Low side at rest");
  await page.locator("#reading-steady").fill("69");
  await page.locator(".judgement").first().waitFor();
  await handOn(page).open("vehicle", /What this vehicle should read|vehicle/i);
  await page.locator("main .figure").first().waitFor();
  await context.close();
});

/** Writes a note with its own words. */
async function write(page: Page, text: string): Promise<void> {
  const hand = handOn(page);
  await hand.open("stage/prove/-/note", "A note");
  await hand.type("Note", text);
  await hand.press("Save the note", "Prove");
}

/** What the mark of safety says at the moment when an element, with some words in it, first stands on the screen. */
const saidBeside = (page: Page, selector: string, words = "") =>
  page.evaluateHandle(
    (sought) => {
      const seen = { beside: "" };
      new MutationObserver((_, observer) => {
        const all = [...document.querySelectorAll(sought.selector)];
        if (!all.some(({ textContent }) => textContent.includes(sought.words))) return;
        seen.beside = document.querySelector(".safety > summary")?.textContent ?? "";
        observer.disconnect();
      }).observe(document, { childList: true, subtree: true });
      return seen;
    },
    { selector, words },
  );

const logText = async (page: Page): Promise<string[]> => {
  await handOn(page).open("log", "The log");
  return page.locator(".entry .entry-line strong + .figure").allInnerTexts();
};

test("two devices that wrote apart in the same hour hold the same afterwards", async () => {
  const contexts = await Promise.all([browser.newContext(), browser.newContext()]);
  const [phone, tablet] = contexts;
  const house = await openHouse(app);
  const first = await arrive(phone, house);
  await handOn(first).press("Open the demonstration", "Plan");
  await saved(first);
  const second = await arrive(tablet, house);
  await second.locator(".trial-row").click();
  await second.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  const devices = [first, second];
  for (const page of devices) await cached(page);
  for (const context of contexts) await context.setOffline(true);
  for (const [k, page] of devices.entries()) {
    await write(page, `Written apart, ${k}, first`);
    await write(page, `Written apart, ${k}, second`);
    await page.getByText("2 entries only here").waitFor();
    await page.locator(".safety > summary").click();
    await page.getByText("Which entries are only here").click();
    expect(await page.locator(".safety-list li").count()).toBe(2);
    await page.locator(".safety > summary").click();
    const seen = await saidBeside(page, ".live-send code");
    await page.getByText("Open a stream", { exact: true }).click();
    await page.getByRole("button", { name: "Open the stream" }).click();
    await page.locator(".live-send code").waitFor({ state: "attached" });
    expect(await seen.evaluate(({ beside }) => beside)).toBe("3 entries only here");
  }
  for (const context of contexts) await context.setOffline(false);
  for (const page of [...devices, first]) {
    await page.evaluate(() => dispatchEvent(new Event("online")));
    await saved(page);
  }
  await first.getByText("Saved", { exact: true }).waitFor();
  await handOn(first).open("log", "The log");
  await first.getByText("Written apart, 1, second").first().waitFor();
  const [a, b] = [await logText(first), await logText(second)];
  expect(a.filter((text) => text.startsWith("Written apart"))).toHaveLength(4);
  expect(b).toEqual(a);
  await Promise.all(contexts.map((context) => context.close()));
});

test("a second window of a device shows what the first one wrote, and calls it saved only when a server has it", async () => {
  let isFull = false;
  const house = await openHouse(app, (handle) => (request) => {
    const isBatch = request.method === "POST" && request.url.endsWith("/events");
    return isFull && isBatch ? Promise.resolve(new Response("", { status: 503 })) : handle(request);
  });
  const context = await browser.newContext();
  const first = await arrive(context, house);
  await handOn(first).press("Open the demonstration", "Plan");
  await saved(first);
  const second = await arrive(context, first.url());
  await handOn(second).open("log", "The log");
  await saved(second);
  const seen = await saidBeside(second, ".entry", "Written in the first window");
  isFull = true;
  await write(first, "Written in the first window");
  await second.getByText("Written in the first window").first().waitFor();
  expect(await seen.evaluate(({ beside }) => beside)).toBe("1 entry only here");
  isFull = false;
  await first.evaluate(() => dispatchEvent(new Event("online")));
  for (const page of [first, second]) await saved(page);
  await context.close();
});

async function pair(page: Page, name: string): Promise<void> {
  await page.getByLabel("Name of this device").fill(name);
  await page.locator("main").getByRole("button", { name: "Pair this device" }).click();
  await page.getByText("This device is paired.").waitFor();
}

test("a phone is paired by its code, follows live, and is let go of again", async () => {
  const { house, door } = await lockedHouse(app);
  const contexts = await Promise.all([browser.newContext(), browser.newContext()]);
  const [bench, pocket] = contexts;
  await liveOnly(pocket);
  const owner = await arrive(bench, `${house}/#/pair/${door.offer("owner")}`);
  await pair(owner, "bench");
  await handOn(owner).press("Open the demonstration", "Plan");
  await saved(owner);

  const phone = await arrive(pocket, house);
  await phone.getByText("The server does not know this device.").first().waitFor();
  await phone.getByText("None yet.").waitFor();
  await phone.goto(`${house}/#/pair/WRONG`);
  await phone.locator("main").getByRole("button", { name: "Pair this device" }).click();
  await phone.getByText("does not take this code").waitFor();

  await phone.goto(`${house}/#/pair/${door.offer("tester")}`);
  await pair(phone, "pocket");
  await phone.locator(".trial-row").click();
  await phone.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  await expect.poll(() => door.listening()).toBe(2);

  await phone.evaluate(() => (location.hash = `${location.hash.split("/stage")[0] ?? ""}/log`));
  const trial = /trial\/([^/]+)/.exec(phone.url())?.[1] ?? "";
  await owner.goto(`${house}/#/trial/${trial}/stage/prove/-`);
  await write(owner, "Heard at once on the other screen");
  await phone.getByText("Heard at once on the other screen").first().waitFor();

  await owner.goto(`${house}/#/devices`);
  await owner.getByRole("button", { name: "Revoke pocket" }).click();
  await owner.getByRole("button", { name: "Take its key back" }).click();
  await owner.getByText("pocket").waitFor({ state: "detached" });
  await phone.evaluate(() => dispatchEvent(new Event("online")));
  await phone.getByText("The server does not know this device.").first().waitFor();
  await phone.getByText("Heard at once on the other screen").first().waitFor();
  await Promise.all(contexts.map((context) => context.close()));
});

test("a viewer follows what others write, and is told that its own stays here", async () => {
  const { house, door } = await lockedHouse(app);
  const contexts = await Promise.all([browser.newContext(), browser.newContext()]);
  const [bench, pocket] = contexts;
  const owner = await arrive(bench, `${house}/#/pair/${door.offer("owner")}`);
  await pair(owner, "bench");
  await handOn(owner).press("Open the demonstration", "Plan");
  await saved(owner);
  const viewer = await arrive(pocket, `${house}/#/pair/${door.offer("viewer")}`);
  await pair(viewer, "wall");
  await viewer.locator(".trial-row").click();
  await viewer.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  await write(viewer, "A viewer's own words");
  await viewer.locator(".safety > summary").click();
  await viewer.getByText("This device may only read on the server.").waitFor();
  await write(owner, "The owner's words");
  await handOn(viewer).open("log", "The log");
  await viewer.getByText("The owner's words").first().waitFor();
  await Promise.all(contexts.map((context) => context.close()));
});

test("behind a key the report is shown in a frame that runs nothing and reaches nothing", async () => {
  const { house, door } = await lockedHouse(app);
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await arrive(context, `${house}/#/pair/${door.offer("owner")}`);
  await pair(page, "desk");
  const send = await senderTo(house, door);
  const title = "Bay <img src=x onerror=document.title=1>";
  const opened = { ...note(1), type: "trial-opened", body: { title, question: "Who?" } };
  await send(`/api/trials/${opened.trial}/events`, { events: [opened] });
  const said: string[] = [];
  page.on("console", (message) => said.push(message.text()));
  await page.goto(`${house}/#/trial/${opened.trial}/stage/publish/-`);
  await page.getByRole("button", { name: "Show it here" }).click();
  const frame = page.frameLocator(".report-preview iframe");
  await frame.getByText("Bay <img").first().waitFor();
  const seen = await frame.locator("body").evaluate((body) => ({
    origin,
    styled: getComputedStyle(body).marginTop === "0px",
    images: body.querySelectorAll("img").length,
  }));
  expect(seen).toEqual({ origin: "null", styled: true, images: 0 });
  // Chromium reports on the console whatever a policy stops.
  expect(said).toEqual([]);
  await context.close();
});

test("a device that is paired with another shop shows and sends nothing of the first, and loses nothing", async () => {
  const { url: house, shops, stop } = await twoShops(app);
  const [alpha, beta] = shops;
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await arrive(context, `${house}/`);
  const hand = handOn(page);
  const join = async (code: string): Promise<void> => {
    await page.goto(`${house}/#/pair/${code}`);
    await page.getByLabel("Name of this device").fill("pocket");
    await page.locator("main").getByRole("button", { name: "Pair this device" }).click();
    await page.getByRole("heading", { level: 1, name: "Is the can what it says?" }).waitFor();
  };
  const start = async (title: string): Promise<void> => {
    await hand.press("New trial", "What is the question?");
    await hand.type("Name of the trial", title);
    await hand.type("The question, fixed before the first reading", "Is it as cold?");
    await hand.type("Smallest vent difference that matters", "1");
    await hand.type("Altitude", "640");
    await hand.press("Start the trial", "Plan");
  };
  await start("Made before any pairing");
  await join(await alpha.code());
  await expect.poll(alpha.texts).toEqual(["Made before any pairing"]);
  await page.locator(".trial-row").click();
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  // The network takes nothing from here on: the note stays on the device.
  await context.route(/\/events$/, (route) => route.abort());
  await write(page, "Not yet with Alpha");
  await page.getByText("1 entry only here").waitFor();

  await join(await beta.code());
  await page.getByText("None yet.").waitFor();
  await context.unroute(/\/events$/);
  await start("Made in Beta");
  await saved(page);
  expect(await beta.texts()).toEqual(["Made in Beta"]);
  expect(await alpha.texts()).toEqual(["Made before any pairing"]);

  await join(await alpha.code());
  await page.locator(".trial-row", { hasText: "Made before any pairing" }).waitFor();
  expect(await page.locator(".trial-row").count()).toBe(1);
  await expect.poll(alpha.texts).toEqual(["Made before any pairing", "Not yet with Alpha"]);
  expect(await beta.texts()).toEqual(["Made in Beta"]);
  await context.close();
  await stop();
});
