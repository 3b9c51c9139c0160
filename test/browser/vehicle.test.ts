import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { grave } from "./grave.ts";
import { handOn } from "./walk/hand.ts";
import { axeSource } from "./walk/house.ts";
import { visit } from "./walk/visit.ts";

/** What a vehicle should read, as a person asks for it, narrow and wide, light and dark. */
const here = visit();

interface Screen {
  readonly width: number;
  readonly colorScheme: "light" | "dark";
}
const desk: Screen = { width: 1440, colorScheme: "light" };

async function pageAt({ width, colorScheme }: Screen): Promise<{ page: Page; faults: string[] }> {
  const page = await here.browser.newPage({
    viewport: { width, height: 844 },
    colorScheme,
    serviceWorkers: "block",
    reducedMotion: "reduce",
    locale: "de-DE",
  });
  page.setDefaultTimeout(10_000);
  const faults: string[] = [];
  page.on("pageerror", ({ message }) => faults.push(message));
  await page.goto(here.url);
  await page.getByRole("link", { name: "What a vehicle should read" }).click();
  await page.getByRole("heading", { level: 1, name: "What this vehicle should read" }).waitFor();
  await headline(page).filter({ hasText: "low side" }).waitFor();
  return { page, faults };
}

const headline = (page: Page) => page.locator(".vehicle-head");
const drawing = (page: Page, kind: string) => page.locator(`.pic-${kind} svg`);

const isWithin = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

/** What each part shows once it is worked out. */
const parts = [
  { name: "Setting", shows: "#vehicle-preset" },
  { name: "Reads", shows: ".pic-phase svg" },
  { name: "What if", shows: ".vehicle-beside table" },
  { name: "Sweeps", shows: ".pic-sweep svg" },
  { name: "Refine", shows: ".vehicle-group" },
];

const screens: readonly Screen[] = [390, 1440].flatMap((width) =>
  (["light", "dark"] as const).map((colorScheme) => ({ width, colorScheme })),
);

test.each(screens)("$width px, $colorScheme: nothing grave, nothing cut off", async (screen) => {
  const { page, faults } = await pageAt(screen);
  // The page's policy forbids foreign scripts; the debugger's own evaluation is not bound by it.
  await page.evaluate(axeSource);
  const found: string[] = [];
  const narrow = screen.width < 1000;
  for (const { name, shows } of parts) {
    if (narrow) await page.getByRole("button", { name, exact: true }).click();
    await page.locator(shows).first().waitFor();
    if (name === "Refine") await page.locator(".vehicle-group summary").first().click();
    if (!narrow && name !== "Refine") continue;
    found.push(...(await grave(page)).map((one) => `${name} ${one}`));
    expect(await isWithin(page), name).toBe(true);
  }
  expect(found).toEqual([]);
  expect(faults).toEqual([]);
  await page.close();
});

describe("at a desk", () => {
  test("readings have bands, and a wrong unit is said beside its field", async () => {
    const { page } = await pageAt(desk);
    await drawing(page, "band").nth(2).waitFor();
    await page.getByText("Not fitted to this vehicle").waitFor();
    await drawing(page, "charge").waitFor();
    await page.locator("#vehicle-ambient").fill("35 psi");
    await page.locator("#vehicle-ambient-issue").waitFor();
    await page.locator("#vehicle-ambient").fill("45");
    await headline(page).filter({ hasText: "low side" }).waitFor();
    await page.close();
  });

  test("a system that would not run says why", async () => {
    const { page } = await pageAt(desk);
    // 60 g on a freezing day rest far below the pressure at which the low-pressure switch closes.
    await page.locator("#vehicle-charge").fill("60");
    await page.locator("#vehicle-ambient").fill("0");
    await page.getByRole("heading", { name: "It would not run steadily" }).waitFor();
    await page.close();
  });

  test("each fault stands beside the sound system", async () => {
    const { page } = await pageAt(desk);
    const kinds = await page
      .locator("#vehicle-fault option")
      .evaluateAll((options) => options.map((one) => (one as HTMLOptionElement).value));
    expect(kinds).toHaveLength(7);
    for (const kind of kinds.slice(0, 6)) {
      await page.locator("#vehicle-fault").selectOption(kind);
      await page.locator(".vehicle-beside:not(.is-stale) table").waitFor();
      await page.locator("#what-if ~ .picture-sheet .pic-broken").first().waitFor();
    }
    await page.locator("#vehicle-fault").selectOption("fluid");
    await page.getByText("The cycle on R1234yf").first().waitFor();
    await page.close();
  });

  test("a sweep follows the condition that is chosen", async () => {
    const { page } = await pageAt(desk);
    for (const [name, says] of [
      ["Speed", /km\/h the vent goes from/],
      ["Humidity", /% the vent goes from/],
      ["Charge", /the vent stays within/],
    ] as const) {
      await page
        .getByRole("radiogroup", { name: "Along which condition" })
        .getByLabel(name)
        .check();
      await page.locator(".pic-sweep .pic-title").filter({ hasText: says }).waitFor();
    }
    await page.close();
  });

  test("a value of one's own narrows the bands, is kept, and can be taken back", async () => {
    const { page } = await pageAt(desk);
    const band = page.locator("#vehicle-band-vent-desc");
    const before = await band.textContent();
    await page.locator(".vehicle-group summary").filter({ hasText: "Condenser" }).click();
    await page.locator("#vehicle-own-preheat").fill("4");
    await page.getByText("One value is your own").waitFor();
    await expect.poll(() => band.textContent()).not.toBe(before);
    await page.reload();
    await page.getByText("One value is your own").waitFor();
    await page.getByRole("button", { name: "Back to the defaults" }).click();
    await expect.poll(() => band.textContent()).toBe(before);
    await page.close();
  });

  test("within a trial it begins with the trial's vehicle", async () => {
    const { page } = await pageAt(desk);
    await page.getByRole("link", { name: /Coldproof/ }).click();
    await handOn(page).press("Open the demonstration", "Plan");
    await page.getByRole("link", { name: "What this vehicle should read" }).click();
    await page.getByText("Begins with the trial’s vehicle").waitFor();
    await headline(page).filter({ hasText: "R134a in this kind of vehicle" }).waitFor();
    await page.close();
  });

  test("what is known of the vehicle is used in its trial, as a correction in the log", async () => {
    const { page } = await pageAt(desk);
    await page.getByRole("link", { name: /Coldproof/ }).click();
    await handOn(page).press("Open the demonstration", "Plan");
    await page.getByRole("link", { name: "What this vehicle should read" }).click();
    await page.getByText("Begins with the trial’s vehicle").waitFor();
    const use = page.getByRole("button", { name: "Use this in the trial" });
    expect(await use.count()).toBe(0);
    await page.locator(".vehicle-group summary").filter({ hasText: "Condenser" }).click();
    await page.locator("#vehicle-own-preheat").fill("4");
    await use.click();
    await use.waitFor({ state: "detached" });
    await page.getByRole("link", { name: "The log" }).click();
    await page.getByText("Forecasts use what is known of this vehicle.").first().waitFor();
    await page.close();
  });
});
