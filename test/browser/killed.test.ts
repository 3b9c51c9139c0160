import { afterAll, beforeAll, expect, test } from "vitest";
import { handOn } from "./walk/hand.ts";
import { builtApp, endAll, openHouse } from "./walk/house.ts";
import { mortalBrowser } from "./walk/killed.ts";

/** The phone dies in the middle of an entry: what was saved is there, and what was half typed as well. */
const phone = mortalBrowser();
let url: string;

beforeAll(async () => {
  url = await openHouse(builtApp());
});
afterAll(async () => {
  await endAll();
  await phone.end();
});

test("killed in mid-entry, three times", async () => {
  let page = await phone.open(url);
  await handOn(page).press("Open the demonstration", "Plan");
  const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
  for (let round = 0; round < 3; round++) {
    await handOn(page).open("stage/prove/-/note", "A note");
    await handOn(page).type("Note", `Saved before the battery died, ${round}`);
    await handOn(page).press("Save the note", "Prove");
    await handOn(page).open("stage/prove/-/reading/low-side", "Low side");
    await page.locator("#reading-steady").fill(`${30 + round}`);
    // A draft is written with every keystroke; one turn of the disk is what a person cannot outrun.
    await page.waitForTimeout(200);
    await phone.kill();
    page = await phone.open(`${url}/#/trial/${trial}/stage/prove/-/reading/low-side`);
    await page.locator("#reading-steady").waitFor();
    expect(await page.locator("#reading-steady").inputValue()).toBe(`${30 + round}`);
  }
  await handOn(page).open("log", "The log");
  const log = await page.locator("main").innerText();
  for (let round = 0; round < 3; round++) {
    expect(log.split(`Saved before the battery died, ${round}`)).toHaveLength(2);
  }
});
