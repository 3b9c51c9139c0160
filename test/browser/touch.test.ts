import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { handOn } from "./walk/hand.ts";
import { builtApp, endAll, openHouse } from "./walk/house.ts";

/** Gloved hands on a small phone: every target is large enough, and nothing leads sideways. */
const LEAST = 48;

let browser: Browser;
let url: string;

beforeAll(async () => {
  browser = await launchChromium();
  url = await openHouse(builtApp());
});
afterAll(async () => {
  await browser.close();
  await endAll();
});

/** Targets that are too small to touch; a link inside a sentence is as high as its line. */
const tooSmall = (page: Page): Promise<string[]> =>
  page.evaluate((least) => {
    const inSentence = (element: Element): boolean =>
      element.matches("p a, li a, dd a, p button.plain") &&
      getComputedStyle(element).display === "inline";
    /** A box or a dot is touched by its label, which holds it. */
    const touched = (element: Element): Element =>
      element.matches("input[type=radio], input[type=checkbox], input[type=file]")
        ? (element.closest("label") ?? element)
        : element;
    const targets = document.querySelectorAll(
      "a[href], button, input, select, textarea, summary, [role=button]",
    );
    return [...new Set([...targets].filter((one) => !inSentence(one)).map(touched))].flatMap(
      (element) => {
        const { width, height } = element.getBoundingClientRect();
        const hidden = !element.checkVisibility({ visibilityProperty: true }) || width <= 1;
        // Layout rounds to sixty-fourths of a pixel.
        if (hidden || (width >= least - 0.1 && height >= least - 0.1)) return [];
        const words = element.textContent.trim().slice(0, 40);
        const kind = `${element.tagName.toLowerCase()}.${element.className}`;
        return [`${kind} "${words}" ${width.toFixed(0)} × ${height.toFixed(0)}`];
      },
    );
  }, LEAST);

async function faultsOf(page: Page, screen: string): Promise<string[]> {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  const sideways = wide > 0 ? [`${wide} px too wide`] : [];
  return [...sideways, ...(await tooSmall(page))].map((fault) => `${screen}: ${fault}`);
}

const fixedScreens = [
  "stages",
  "grams",
  "fluids",
  "log",
  "fluids",
  ...["vehicle", "instrument", "product", "vessel"].map((kind) => `add/${kind}`),
  ...["plan", "prove", "restore", "compare", "publish"].map((stage) => `stage/${stage}/-`),
  ...["readings", "reading/low-side", "reading/static-low", "transfer", "empty", "run", "note"].map(
    (step) => `stage/prove/-/${step}`,
  ),
  "stage/prove/-/import/run",
  "stage/plan/-/confirm/hazards-read",
  "stage/publish/-/confirm/closures-read",
];
const roundScreens = ["recover", "evacuate", "charge", "run"];

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
