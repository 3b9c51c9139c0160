import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { grave } from "./grave.ts";
import { axeSource } from "./walk/house.ts";
import { visit } from "./walk/visit.ts";

/** The guided first trial from the first page to its end, by keyboard, half of it without a connection. */
const here = visit();

/** Presses what has this name with the keyboard alone. */
async function key(page: Page, role: "link" | "button", name: string, within = "body") {
  const target = page.locator(within).getByRole(role, { name, exact: true }).first();
  await target.press("Enter");
}

const card = (page: Page) => page.locator(".guide");
const title = (page: Page) => page.locator(".guide-title").innerText();

/** One card done: entered, looked at, or confirmed. */
async function goOn(page: Page): Promise<void> {
  const was = await title(page);
  if ((await card(page).getByRole("button", { name: "Enter it for me" }).count()) > 0) {
    await key(page, "button", "Enter it for me", ".guide");
  } else {
    if ((await card(page).getByRole("link", { name: "Go there" }).count()) > 0) {
      await key(page, "link", "Go there", ".guide");
      // Until then what is asked for below may still be that of the page before.
      await card(page).getByRole("link", { name: "Go there" }).waitFor({ state: "detached" });
    }
    const looked = card(page).getByRole("button", { name: "I have looked" });
    const confirm = page.getByRole("button", { name: "I confirm it" });
    const needed = page.locator(".next .button-main");
    await looked.or(confirm).or(needed).first().waitFor();
    if ((await looked.count()) > 0) await key(page, "button", "I have looked", ".guide");
    else {
      if ((await confirm.count()) === 0) {
        await needed.press("Enter");
      }
      await key(page, "button", "I confirm it");
    }
  }
  await page.waitForFunction(
    (before) => document.querySelector(".guide-title")?.textContent !== before,
    was,
  );
}

const cases = [
  { width: 390, colorScheme: "light" },
  { width: 1440, colorScheme: "dark" },
] as const;

test.each(cases)(
  "$width px wide, $colorScheme",
  async ({ width, colorScheme }) => {
    const context = await here.browser.newContext({
      viewport: { width, height: 844 },
      colorScheme,
      reducedMotion: "reduce",
    });
    const page = await context.newPage();
    await page.goto(here.url);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.evaluate(axeSource);
    await context.setOffline(true);
    await key(page, "link", "Learn with an invented van");
    await key(page, "button", "Start a practice trial");
    await card(page).waitFor();
    const found: string[] = [];
    for (let steps = 0; !(await title(page)).includes("whole trial"); steps++) {
      expect(steps).toBeLessThan(60);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(wide, await title(page)).toBeLessThanOrEqual(width);
      if (steps % 6 === 0) found.push(...(await grave(page)));
      if (steps === 12) {
        await key(page, "button", "Leave the guide");
        await card(page).waitFor({ state: "detached" });
        await page.goto(`${here.url}/#/learn`);
        // The list comes from the browser's store, after the page.
        await page.getByText("Last entry").waitFor();
        await page.locator(".learn-begun button").press("Enter");
        await card(page).waitFor();
        await context.setOffline(false);
      }
      await goOn(page);
    }
    expect(found).toEqual([]);
    await key(page, "link", "Go to Publish", ".guide");
    await page.getByRole("button", { name: "Save the report" }).waitFor();
    await context.close();
  },
  120_000,
);
