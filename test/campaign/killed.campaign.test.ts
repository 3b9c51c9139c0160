import { afterAll, expect, test } from "vitest";
import { storeHouse } from "../browser/store-house.ts";
import { handOn } from "../browser/walk/hand.ts";
import { builtApp, endAll, openHouse } from "../browser/walk/house.ts";
import { mortalBrowser } from "../browser/walk/killed.ts";
import { xorshift } from "../kill/random.ts";

/** Names that store-kill-page.ts puts into its page. */
declare const there: () => Promise<{ count: number; isWhole: boolean; waiting: number }>;
declare const goOn: () => Promise<void>;

afterAll(endAll);

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

test("60 kills while notes are typed and saved: what the screen called saved is there, once", async () => {
  const url = await openHouse(builtApp());
  const phone = mortalBrowser();
  const random = xorshift(23);
  let page = await phone.open(url);
  await handOn(page).press("Open the demonstration", "Plan");
  const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
  const saved: string[] = [];
  let interrupted = 0;
  for (let round = 0; round < 60; round++) {
    let last = "";
    const hand = handOn(page);
    const working = (async () => {
      for (let i = 0; ; i++) {
        await hand.open("stage/prove/-/note", "A note");
        last = `Note ${round}.${i}.`;
        await hand.type("Note", last);
        await hand.press("Save the note", "Prove");
        saved.push(last);
      }
    })().catch(() => undefined);
    await pause(100 + 1500 * random());
    await phone.kill();
    await working;
    if (saved.at(-1) !== last) interrupted++;
    page = await phone.open(`${url}/#/trial/${trial}/log`);
    await page.getByRole("heading", { level: 1, name: "The log" }).waitFor();
    const log = await page.locator("main").innerText();
    const times = (text: string): number => log.split(text).length - 1;
    expect(saved.filter((text) => times(text) !== 1)).toEqual([]);
    if (last !== "") expect(times(last)).toBeLessThanOrEqual(1);
  }
  console.log({ rounds: 60, saved: saved.length, interrupted });
  expect(interrupted).toBeGreaterThan(20);
  await phone.end();
});

test("60 kills while a log is packed: nothing that was safe is lost, nothing comes twice", async () => {
  const { url, end } = await storeHouse("test/browser/store-kill-page.ts");
  const phone = mortalBrowser();
  const random = xorshift(29);
  let safe = 0;
  for (let round = 0; round < 60; round++) {
    const page = await phone.open(url);
    await page.waitForFunction(() => typeof goOn === "function");
    const seen = await page.evaluate(() => there());
    expect(seen.isWhole).toBe(true);
    expect(seen.count).toBeGreaterThanOrEqual(safe);
    expect(seen.waiting).toBe(seen.count);
    await page.exposeFunction("safe", (count: number) => {
      safe = count;
    });
    const working = page.evaluate(() => goOn()).catch(() => undefined);
    await pause(50 + 400 * random());
    await phone.kill();
    await working;
  }
  console.log({ rounds: 60, safe });
  expect(safe).toBeGreaterThan(2000);
  await phone.end();
  await end();
});
