import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readOffScreen } from "./bay/camera.ts";
import { tabTo } from "./bay/keyboard.ts";
import { liveOnly } from "./bay/live-only.ts";
import { lockedHouse, senderTo } from "./bay/locked-house.ts";
import { faultsOf } from "./bay/touchable.ts";
import { launchChromium } from "./chromium.ts";
import { grave } from "./grave.ts";
import { note } from "../doors/sample-events.ts";
import { handOn } from "./walk/hand.ts";
import { axeSource, builtApp, endAll, openHouse } from "./walk/house.ts";

/** Gloved hands on a small phone: every target is large enough, and nothing leads sideways. */
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

const fixedScreens = [
  "stages",
  "grams",
  "fluids",
  "log",
  ...["vehicle", "instrument", "product", "vessel"].map((kind) => `add/${kind}`),
  ...["plan", "prove", "restore", "compare", "hazards", "claims", "publish"].map(
    (stage) => `stage/${stage}/-`,
  ),
  ...["readings", "reading/low-side", "reading/static-low", "transfer", "empty", "run", "note"].map(
    (step) => `stage/prove/-/${step}`,
  ),
  "stage/prove/-/import/run",
  "stage/plan/-/confirm/hazards-read",
  "stage/publish/-/confirm/closures-read",
];
const roundScreens = ["recover", "evacuate", "charge", "run", "identify"];

test.each([360, 390])("at %i px", async (width) => {
  const page = await browser.newPage({
    viewport: { width, height: 780 },
    serviceWorkers: "block",
    reducedMotion: "reduce",
  });
  await page.goto(url);
  const hand = handOn(page);
  await page.getByRole("heading", { level: 1 }).waitFor();
  const faults = await faultsOf(page, "home");
  await hand.press("Open the demonstration", "Plan");
  await hand.open("stages", "Stages");
  const rounds = await Promise.all(roundScreens.map((stage) => hand.round(stage)));
  for (const screen of [...fixedScreens, ...rounds]) {
    await hand.open(screen, /\w/);
    faults.push(...(await faultsOf(page, screen)));
  }
  await page.goto(`${url}#/new`);
  await page.getByRole("heading", { level: 1, name: "What is the question?" }).waitFor();
  faults.push(...(await faultsOf(page, "new")));
  for (const [place, heading] of [
    ["devices", "Devices"],
    ["pair", "Pair this device"],
  ] as const) {
    await page.goto(`${url}#/${place}`);
    await page.getByRole("heading", { level: 1, name: heading }).waitFor();
    faults.push(...(await faultsOf(page, place)));
  }
  expect(faults).toEqual([]);
  await page.close();
});

const small = { viewport: { width: 360, height: 780 }, reducedMotion: "reduce" } as const;

/** Touch, width and the axe rules, in both looks. */
async function faultsInBothLooks(page: Page, screen: string, part = "html"): Promise<string[]> {
  await page.evaluate(axeSource);
  const found = await faultsOf(page, screen);
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    found.push(...(await grave(page, part)).map((one) => `${screen}, ${colorScheme}: ${one}`));
  }
  return found;
}

const samplesOf = (start: number) =>
  Array.from({ length: 900 }, (_, s) => ({
    at: new Date(start + 1000 * s).toISOString(),
    values: [7 + 18 * Math.exp(-s / 100), 2 + Math.exp(-s / 100), 12 - 4 * Math.exp(-s / 100), 24],
  }));

test("pairing by the painted code, a stream and a reading: by hand, in glare, by keyboard", async () => {
  const { house, door } = await lockedHouse(app);
  const [bench, pocket] = [await browser.newContext(small), await browser.newContext(small)];
  await liveOnly(pocket);
  const [owner, phone] = [await bench.newPage(), await pocket.newPage()];
  await owner.goto(`${house}/#/pair/${door.offer("owner")}`);
  await tabTo(owner, "Name of this device");
  await owner.keyboard.type("bench");
  const found = await faultsInBothLooks(owner, "pair");
  await owner.keyboard.press("Enter");
  await owner.getByText("This device is paired.").waitFor();

  await owner.goto(`${house}/#/devices`);
  await owner.getByText("Devices that may come in").waitFor();
  await tabTo(owner, "Show the code");
  await owner.keyboard.press("Enter");
  const code = owner.getByRole("img", { name: /Code that opens the app/ });
  await code.waitFor();
  found.push(...(await faultsInBothLooks(owner, "code")));
  const address = await readOffScreen(code);
  expect(address).toBe(`${house}/#/pair/${await owner.locator(".pairing-code").innerText()}`);
  await phone.goto(address);
  await phone.getByLabel("Name of this device").fill("pocket");
  await phone.getByLabel("Name of this device").press("Enter");
  await owner.getByText("pocket is paired.").waitFor();
  await tabTo(owner, "Revoke pocket");
  await owner.keyboard.press("Enter");
  found.push(...(await faultsInBothLooks(owner, "revoke")));
  await owner.keyboard.press("Escape");
  await owner.locator("[aria-label='Revoke pocket']:focus").waitFor();

  const send = await senderTo(house, door);
  const opened = { ...note(1), type: "trial-opened", body: { title: "Bay", question: "Who?" } };
  await send(`/api/trials/${opened.trial}/events`, { events: [opened] });
  for (const page of [owner, phone]) {
    await page.goto(`${house}/#/trial/${opened.trial}/stage/prove/-`);
    await page.getByRole("heading", { level: 1, name: "Prove" }).waitFor();
  }
  await owner.getByText("Open a stream", { exact: true }).click();
  await owner.getByRole("button", { name: "Open the stream" }).click();
  const command = await owner.locator(".live-send code").textContent();
  const [, trial = "", stream = ""] = /--trial (\S+) --stream (\S+)/.exec(command ?? "") ?? [];
  const samples = samplesOf(Date.now() - 900_000);
  await owner.getByText("Saved", { exact: true }).waitFor();
  await send(`/api/trials/${trial}/streams/${stream}/samples`, { samples });
  await phone.getByText("All of it has settled. Record the run now.").waitFor();
  found.push(...(await faultsInBothLooks(phone, "live board", ".live")));

  await phone.evaluate(() => (location.hash = `${location.hash.split("/stage")[0] ?? ""}/log`));
  await phone.getByRole("heading", { level: 1, name: "The log" }).waitFor();
  await tabTo(owner, "Take any reading");
  await owner.keyboard.press("Enter");
  await owner.getByRole("heading", { level: 1, name: "Which reading?" }).waitFor();
  await tabTo(owner, /^Low side at rest/);
  await owner.keyboard.press("Enter");
  await owner.getByRole("heading", { level: 1, name: "Low side at rest" }).waitFor();
  await tabTo(owner, /^Low side at rest/);
  await owner.keyboard.type("64.25");
  await owner.keyboard.press("Enter");
  const typed = owner.getByRole("heading", { level: 1, name: "Low side at rest" });
  await typed.waitFor({ state: "detached" });
  await phone
    .getByText(/64\.25/)
    .first()
    .waitFor();
  await tabTo(owner, /^Saved/);
  await owner.keyboard.press("Enter");
  await owner.keyboard.press("Escape");
  await owner.locator(".safety:not([open]) > summary:focus").waitFor();
  expect(found).toEqual([]);
  await Promise.all([bench.close(), pocket.close()]);
});

test("over plain http, where a browser withholds what it keeps for https, the app opens", async () => {
  const context = await browser.newContext();
  await context.route("http://shop.test/**", async (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname === "/api/live") await route.abort();
    else await route.fulfill({ response: await route.fetch({ url: `${url}${pathname}` }) });
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", ({ message }) => faults.push(message));
  await page.goto("http://shop.test/#/pair/CODE");
  await page.getByRole("heading", { level: 1, name: "Pair this device" }).waitFor();
  expect(await page.evaluate(() => isSecureContext)).toBe(false);
  expect(faults).toEqual([]);
  // What is still on its way when the page closes has nobody left to answer to.
  await context.unrouteAll({ behavior: "ignoreErrors" });
  await context.close();
});
