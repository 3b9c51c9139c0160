import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { grave } from "./grave.ts";
import { handOn } from "./walk/hand.ts";
import { axeSource, builtApp, endAll, openHouse } from "./walk/house.ts";

/** What a leak would do and how a label's claims stand, as a person asks, narrow and wide, light and dark. */
let browser: Browser;
let app: string;

beforeAll(async () => {
  browser = await launchChromium();
  app = builtApp();
});
afterAll(async () => {
  await browser.close();
  await endAll();
});

const screens = [
  { width: 360, colorScheme: "light" },
  { width: 1440, colorScheme: "dark" },
] as const;

async function demonstrationAt(screen: (typeof screens)[number]) {
  const { width, colorScheme } = screen;
  const page = await browser.newPage({
    viewport: { width, height: 844 },
    colorScheme,
    serviceWorkers: "block",
    reducedMotion: "reduce",
  });
  const faults: string[] = [];
  page.on("pageerror", ({ message }) => faults.push(message));
  // A log of its own: what one visitor enters stands in the way of no other.
  await page.goto(await openHouse(app));
  await page.evaluate(axeSource);
  const hand = handOn(page);
  await page.locator("input[type=file]").setInputFiles("data/demonstration/hill-town.json");
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  const sound = async (place: string): Promise<void> => {
    const wide = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
    if (wide) faults.push(`${place} is wider than the screen`);
    faults.push(...(await grave(page)).map((one) => `${place} ${one}`));
  };
  return { page, hand, faults, sound };
}

test.each(screens)("$width px, $colorScheme", async (screen) => {
  const { page, hand, faults, sound } = await demonstrationAt(screen);
  await hand.open("stage/hazards/-", "Hazards");
  const finding = page.locator(".hazard-finding");
  // What is in the can is worked out first, which takes a while on a small machine.
  await finding.filter({ hasText: "could burn" }).waitFor({ timeout: 45_000 });
  // Its label is no proof, and its readings leave more than one answer.
  const treated = "What is in the can is not proven";
  await page.locator(".caution-lines", { hasText: treated }).first().waitFor();
  await page.locator(".pic-leak svg").waitFor();
  await sound("hazards");
  // 211 g in 4.1 m3 of thin air stand at 1.5 times the limit; in a layer at 5.4 times.
  await finding.filter({ hasText: "5.4 times" }).waitFor();
  await hand.pick("Blower", "Blower on");
  await finding.filter({ hasText: "1.5 times" }).waitFor();
  await hand.pick("How it escapes", "Hole, vapour");
  await page.getByLabel("Diameter of the hole", { exact: true }).waitFor();
  await page.locator("#hazards-subject").selectOption("label");
  await finding.filter({ hasText: "does not burn" }).waitFor();
  await page.locator(".caution-lines", { hasText: treated }).waitFor({ state: "detached" });
  await sound("hazards of the label refrigerant");
  await hand.open(await hand.round("charge"), "Charge");
  await page.locator(".cautions-danger", { hasText: treated }).waitFor();

  await hand.open("stage/claims/-", "Claims");
  await page.locator(".verdict-higher", { hasText: "contradicted" }).first().waitFor();
  await sound("claims");
  // On a phone a decided claim is folded to its verdict.
  if (screen.width < 900) await page.locator(".claim-decided > summary").first().click();
  await hand.press("Read it otherwise", "How this claim is read");
  await sound("how a claim is read");
  await hand.pick("It says", "nothing that can be tested");
  await hand.press("Read it like this", "Claims");
  await page.getByText("Read by a person as").first().waitFor();
  await page.locator(".claim .verdict-undecided").first().waitFor();
  expect(faults).toEqual([]);
  await page.close();
});
