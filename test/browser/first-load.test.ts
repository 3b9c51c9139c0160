import { expect, test } from "vitest";
import { handOn } from "./walk/hand.ts";
import { visit } from "./walk/visit.ts";

/** What must cross the bay's network before a reading can be typed. */
const MOST = 200_000;

const here = visit();

test("the capture screens come with less than 200 kB of packed script", async () => {
  const context = await here.browser.newContext({
    serviceWorkers: "block",
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  await page.goto(here.url);
  await handOn(page).press("Open the demonstration", "Plan");
  const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
  for (const [screen, usable] of [
    ["stage/prove/-/reading/low-side", "#reading-steady"],
    ["stage/prove/-/transfer", "select"],
    ["stage/prove/-/note", "textarea"],
    ["stage/prove/-", ".next .button-main"],
  ] as const) {
    const fresh = await context.newPage();
    await fresh.addInitScript((selector) => {
      const look = (): void => {
        if (document.querySelector(selector))
          Object.assign(globalThis, { usableAt: performance.now() });
        else requestAnimationFrame(look);
      };
      look();
    }, `main ${usable}`);
    await fresh.goto(`${here.url}/#/trial/${trial}/${screen}`);
    await fresh.locator(`main ${usable}`).first().waitFor();
    const bytes = await fresh.evaluate(async () => {
      const at = (): number | undefined => (globalThis as { usableAt?: number }).usableAt;
      while (at() === undefined) await new Promise(requestAnimationFrame);
      // What was asked for later, such as the equations behind verdicts, nobody waited for.
      return performance
        .getEntriesByType("resource")
        .map((entry) => entry as PerformanceResourceTiming)
        .filter(({ name, startTime }) => name.endsWith(".js") && startTime < (at() ?? 0))
        .reduce((sum, { encodedBodySize }) => sum + encodedBodySize, 0);
    });
    console.log(`${screen}: ${bytes} bytes of packed script`);
    expect(bytes, screen).toBeGreaterThan(50_000);
    expect(bytes, screen).toBeLessThan(MOST);
    await fresh.close();
  }
  await context.close();
});
