import { expect, test } from "vitest";
import { grave } from "./grave.ts";
import { handOn } from "./walk/hand.ts";
import { axeSource } from "./walk/house.ts";
import { visit } from "./walk/visit.ts";

/** No serious or critical violation of the axe rules on any main screen, narrow and wide, light and dark. */
const here = visit();

const screens = [
  "stage/plan/-",
  "stage/prove/-",
  "stage/prove/-/reading/low-side",
  "stage/prove/-/import/run",
  "stage/restore/-/transfer",
  "stage/compare/-",
  "stage/publish/-",
  "stages",
  "grams",
  "log",
  "add/instrument",
  "add/vessel",
] as const;

const cases = [390, 1440].flatMap((width) =>
  (["light", "dark"] as const).map((colorScheme) => ({ width, colorScheme })),
);

test.each(cases)("$width px wide, $colorScheme", async ({ width, colorScheme }) => {
  const page = await here.browser.newPage({
    viewport: { width, height: 844 },
    colorScheme,
    serviceWorkers: "block",
    reducedMotion: "reduce",
  });
  await page.goto(here.url);
  await page.getByRole("heading", { level: 1 }).waitFor();
  // The page's policy forbids foreign scripts; the debugger's own evaluation is not bound by it.
  await page.evaluate(axeSource);
  const found: string[] = (await grave(page)).map((one) => `home ${one}`);
  await handOn(page).press("Open the demonstration", "Plan");
  for (const screen of screens) {
    await handOn(page).open(screen, /\w/);
    if (screen.endsWith("low-side")) {
      await page.locator("#reading-steady").fill("31");
      await page.locator(".judgement").first().waitFor();
    }
    found.push(...(await grave(page)).map((one) => `${screen} ${one}`));
  }
  for (const place of ["devices", "pair"]) {
    await page.goto(`${here.url}#/${place}`);
    await page.getByRole("heading", { level: 1, name: /device/i }).waitFor();
    found.push(...(await grave(page)).map((one) => `${place} ${one}`));
  }
  expect(found).toEqual([]);
  await page.close();
});
