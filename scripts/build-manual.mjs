// Takes the pictures of docs/manual: drives the built app through the guided first trial, on a phone's
// screen, with an empty log of its own. Run after a screen changed; then look at every picture.
/* global document, location, window -- inside the page */
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { buildIfChanged } from "./build.mjs";
import { prepareBrowser } from "./steps/browser.mjs";
import { root } from "./steps/checkout.mjs";
import { say } from "./steps/run.mjs";

const pictures = join(root, "docs/manual/pictures");
const viewport = { width: 390, height: 780 };

/** A server on a free port with an empty log; gives its address. */
async function serve(folder) {
  const args = ["serve", "--port", "0", "--data", join(folder, "log.sqlite")];
  const child = spawn(process.execPath, [join(root, "bin/coldproof.mjs"), ...args]);
  for await (const chunk of child.stdout) {
    const [address] = /http:\/\/\S+/.exec(String(chunk)) ?? [];
    if (address !== undefined) return { address, child };
  }
  throw new Error("the server ended before it told its address");
}

/** The page's hand: goes to a place, waits until it is at rest, takes pictures. */
function handOn(page) {
  const guide = page.locator(".guide");
  const title = guide.locator(".guide-title");
  const settled = async () => {
    await page.waitForFunction(() => !/Loading…/.test(document.body.innerText));
    await page.locator(".notice p").waitFor({ state: "detached" });
    await page.waitForTimeout(400);
    // What stays at the edges of a screen would lie across a picture that is longer than it.
    await page.evaluate(() => {
      for (const bar of document.querySelectorAll(".bottom-nav")) bar.style.visibility = "hidden";
      for (const bar of document.querySelectorAll(".top-bar")) bar.style.position = "static";
    });
  };
  const shoot = async (name, locator, most = 640, beyond = false) => {
    await settled();
    const box = await locator.first().boundingBox();
    const top = await page.evaluate(() => window.scrollY);
    const height = beyond ? most : Math.min(box.height, most);
    const clip = { x: 0, y: Math.max(0, box.y + top - 12), width: viewport.width };
    await page.screenshot({
      path: join(pictures, `${name}.png`),
      fullPage: true,
      clip: { ...clip, height: Math.round(height) + 24 },
    });
    say(`${name}.png`);
  };
  return {
    page,
    shoot,
    /** Opens a place of the open trial; the hash of the product's round stands for "-". */
    open: async (stage, round = "-", ...step) => {
      const trial = /trial\/([^/]+)/.exec(page.url())[1];
      await page.evaluate(
        (to) => (location.hash = to),
        ["#/trial", trial, "stage", stage, round, ...step].join("/"),
      );
      await page.locator("h1").waitFor();
      await settled();
    },
    /** Opens the last part that waits behind its title and has these words in it. */
    unfold: (hasText) =>
      page.locator(".fold:not([open]) > summary").filter({ hasText }).last().click(),
    /** Has the guide enter the present card, or looks and confirms; waits for the next. */
    goOn: async () => {
      const was = await title.innerText();
      const enter = guide.getByRole("button", { name: "Enter it for me" });
      if ((await enter.count()) > 0) await enter.click();
      else await confirm(page, guide);
      await page.waitForFunction(
        (before) => document.querySelector(".guide-title")?.textContent !== before,
        was,
      );
    },
    at: () => title.innerText(),
  };
}

async function confirm(page, guide) {
  const there = guide.getByRole("link", { name: "Go there" });
  if ((await there.count()) > 0) await there.click();
  const looked = guide.getByRole("button", { name: "I have looked" });
  const button = page.getByRole("button", { name: "I confirm it" });
  const toConfirm = page.locator(".next .button-main");
  await looked.or(button).or(toConfirm).first().waitFor();
  if ((await looked.count()) > 0) return looked.click();
  if ((await button.count()) === 0) await toConfirm.click();
  return button.click();
}

/** Goes on until the guide's card begins so. */
async function until(hand, start) {
  while (!(await hand.at()).startsWith(start)) await hand.goOn();
}

const sheet = (page, heading) =>
  page.locator(".sheet").filter({ has: page.getByRole("heading", { name: heading }) });

async function plan(hand, address) {
  const { page, shoot } = hand;
  await page.goto(address);
  await page.locator("h1").waitFor();
  await shoot("first-page", page.locator("main"), 720);
  await page.getByRole("link", { name: "Learn with an invented van" }).click();
  await page.getByRole("button", { name: "Start a practice trial" }).click();
  await until(hand, "Read the cautions");
  await hand.unfold(/ met$/);
  await shoot("plan", page.locator("section[aria-labelledby=needs]"), 720);
  await hand.goOn();
  await hand.goOn();
}

async function prove(hand) {
  const { page, shoot } = hand;
  await hand.goOn();
  await hand.unfold("Readings");
  await shoot("reading-in-its-band", page.locator(".evidence .judgement"), 420);
  await until(hand, "Look: is the van healthy");
  await hand.open("prove");
  await shoot("prove", page.getByRole("heading", { name: "What these readings leave" }), 560, true);
  await hand.goOn();
  await shoot("guide", page.locator(".guide"));
}

async function round(hand) {
  const { page, shoot } = hand;
  const link = page.locator(".guide").getByRole("link", { name: "Type it yourself" });
  const [, product] = /\/stage\/\w+\/([^/]+)/.exec(await link.getAttribute("href"));
  await hand.open("recover", product);
  await shoot("recover", sheet(page, "Watch the scale while it fills"));
  await until(hand, "Mend the valve core");
  await hand.open("evacuate", product);
  await hand.unfold(/leaking/);
  await shoot("evacuate", page.locator(".evidence .fold-row[open]"));
  await until(hand, "Charge from the can");
  await until(hand, "Bring in the morning's run on Kestrel");
  await hand.open("charge", product);
  await hand.unfold("Where every gram is now");
  await shoot(
    "where-every-gram-is",
    page.locator(".evidence .sheet").filter({ hasText: "Step through the ledger" }),
  );
  await until(hand, "Bring in the afternoon, parked");
  await hand.open("run", product);
  await hand.unfold(".csv");
  await shoot("run", page.locator(".evidence .fold-row[open]"));
  return product;
}

async function answer(hand, product) {
  const { page, shoot } = hand;
  await until(hand, "Recover Kestrel into cylinder X2");
  await hand.open("identify", product);
  await page.locator(".contents:not(.is-stale)").waitFor({ timeout: 120_000 });
  await shoot("identify", sheet(page, /What is in/), 560);
  await until(hand, "Look: does it cool");
  await hand.open("compare");
  await page
    .getByText(/In equal conditions, /)
    .first()
    .waitFor({ timeout: 120_000 });
  await shoot("compare", sheet(page, /in equal conditions/), 540);
  await hand.goOn();
  await hand.open("hazards");
  await shoot("hazards", page.locator(".walk svg[role=img], .walk figure").first(), 420);
  await hand.open("claims");
  await shoot("claims", sheet(page, "What Kestrel claims"), 560);
  await hand.open("publish");
  await shoot("publish", sheet(page, "The report"));
}

await buildIfChanged();
await prepareBrowser();
mkdirSync(pictures, { recursive: true });
const folder = mkdtempSync(join(tmpdir(), "coldproof-manual-"));
const { address, child } = await serve(folder);
const executablePath = readFileSync(join(root, ".stamps/browser"), "utf8");
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
try {
  const page = await browser.newPage({ viewport, reducedMotion: "reduce", locale: "en-GB" });
  page.setDefaultTimeout(20_000);
  const hand = handOn(page);
  await plan(hand, address);
  await prove(hand);
  await answer(hand, await round(hand));
} finally {
  await browser.close();
  child.kill();
  rmSync(folder, { recursive: true });
}
