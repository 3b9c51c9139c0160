import { join } from "node:path";
import { expect } from "vitest";
import type { Hand } from "./hand.ts";
import { inputs } from "./house.ts";

/** Takes one reading: number, unit, save; then waits for what comes after. */
async function read(
  hand: Hand,
  [place, heading]: readonly [string, string | RegExp],
  text: string,
  unit: string,
): Promise<void> {
  await hand.open(place, heading);
  await hand.page
    .getByLabel(/: unit$/)
    .first()
    .selectOption(unit);
  await hand.page.locator("#reading-steady").fill(text);
  await hand.press("Save the reading");
  await hand.page.getByText(`Saved: ${String(heading)}`).waitFor();
}

/** A logger's file: look at the mapping, save it, confirm each interval as a run. */
async function importRuns(hand: Hand, place: string, file: string): Promise<void> {
  await hand.open(`${place}/import/run`, "Import a logger file");
  await hand.page.locator("input[type=file]").setInputFiles(join(inputs, file));
  await hand.page.getByText("Kept aside:").first().waitFor();
  await hand.press("Save the file", "What the file holds");
  await hand.pick("Air source", "Recirculation");
  await hand.pick("Blower", "High");
  await hand.press("Confirm as a run");
  await hand.page.getByRole("heading", { name: "Interval 2 of 2" }).waitFor();
  await hand.press("Confirm as a run");
  await hand.press("Back to the stage", /Prove|Run/);
}

/** Reading in mid-entry, page loaded again, then saved: nothing that was typed is lost. */
export async function prove(hand: Hand): Promise<void> {
  const { page } = hand;
  await hand.open("stage/prove/-/reading/static-low", "Low side at rest");
  await page.getByLabel("Low side at rest: unit").selectOption("psig");
  await page.locator("#reading-steady").fill("69");
  await page.locator(".judgement").waitFor();
  await page.reload();
  await page.locator("#reading-steady").waitFor();
  expect(await page.locator("#reading-steady").inputValue()).toBe("69");
  expect(await page.getByLabel("Low side at rest: unit").inputValue()).toBe("psig");
  await hand.press("Save the reading", "Metal at the port");
  await page.getByLabel("Metal at the port: unit").selectOption("°C");
  await page.locator("#reading-steady").fill("20,1");
  await hand.press("Save the reading", "High side at rest");
  await page.locator("#reading-steady").fill("70");
  await hand.press("Save the reading", "Prove");
  await importRuns(hand, "stage/prove/-", "hill-town-baseline-us.csv");
  await read(hand, ["stage/prove/-/reading/return-air-humidity", "Return-air humidity"], "50", "%");
}

export async function recover(hand: Hand): Promise<void> {
  const place = await hand.round("recover");
  await hand.open(`${place}/transfer`, "A transfer");
  await hand.pick("To", "R1");
  await hand.type("The destination, before", "8.96", "kg");
  await hand.type("The destination, after", "9.548", "kg");
  await hand.page.locator(".preview", { hasText: "588" }).waitFor();
  await hand.press("Post the transfer", "Recover");
  await read(hand, [`${place}/reading/low-side`, "Low side"], "-0,31", "bar(g)");
  await read(hand, [`${place}/reading/oil-drained`, "Oil drained"], "12", "mL");
}

async function findEmpty(hand: Hand, place: string, heading: string): Promise<void> {
  await hand.open(`${place}/empty`, "Found empty");
  await hand.pick("Which vessel", "Nine-seat shuttle");
  await hand.type("How you know that it is empty", "The vacuum held.");
  await hand.press("Save: it is empty", heading);
}

export async function evacuate(hand: Hand): Promise<void> {
  const place = await hand.round("evacuate");
  await read(hand, [`${place}/reading/shop-temperature`, "Shop temperature"], "24", "°C");
  await read(hand, [`${place}/reading/vacuum`, "Vacuum"], "380", "micron");
  await hand.open(`${place}/import/hold`, "Import a hold trace");
  await hand.page.locator("input[type=file]").setInputFiles(join(inputs, "hill-town-hold.csv"));
  await hand.press("Save the file", "What the file holds");
  await findEmpty(hand, place, "Evacuate");
}

/** First typed as 318 to 140, corrected to 104: both stay readable, the ledger follows the second. */
export async function charge(hand: Hand): Promise<void> {
  const { page } = hand;
  const place = await hand.round("charge");
  await hand.open(`${place}/transfer`, "A transfer");
  await hand.pick("From", "Can 1");
  await hand.type("The source, before", "318", "g");
  await hand.type("The source, after", "140", "g");
  await hand.tick("Some of it left the hoses on the way");
  await hand.type("Estimated mass", "3", "g");
  await hand.type("It could be wrong by, ±", "2", "g");
  await hand.press("Post the transfer", "Charge");
  await hand.open("log", "The log");
  await page
    .getByRole("button", { name: /^Change: Transfer Can 1/ })
    .first()
    .click();
  await hand.press("Correct it", "Transfer");
  await hand.type("The source, after", "104");
  await hand.type("Why is it corrected?", "Read again on the scale.");
  await hand.press("Save the correction", "The log");
  const entry = page.locator(".entry", { hasText: "Read again on the scale." });
  expect(await entry.innerText()).toMatch(/318\sg → 104\sg/);
  expect(await entry.innerText()).toMatch(/First entry:.*318\sg → 140\sg/);
}

export async function run(hand: Hand): Promise<void> {
  await importRuns(hand, await hand.round("run"), "hill-town-product-b-si.csv");
}

export async function restore(hand: Hand): Promise<void> {
  const place = "stage/restore/-";
  await hand.open(`${place}/transfer`, "A transfer");
  await hand.pick("To", "X7");
  await hand.type("The destination, before", "6.41", "kg");
  await hand.type("The destination, after", "6.618", "kg");
  await hand.press("Post the transfer", "Restore");
  await findEmpty(hand, place, "Restore");
  await hand.open(`${place}/transfer`, "A transfer");
  await hand.pick("From", "R1");
  await hand.pick("To", "Nine-seat shuttle");
  await hand.tick("The source stood on a scale");
  await hand.page.getByLabel("The destination stood on a scale").uncheck();
  await hand.type("The source, before", "9.548", "kg");
  await hand.type("The source, after", "8.925", "kg");
  await hand.press("Post the transfer", "Restore");
  await hand.open(`${place}/run`, "A run");
  await hand.press("Record the run", "Restore");
  await read(hand, [`${place}/reading/low-side`, "Low side"], "31", "psig");
  await read(hand, [`${place}/reading/high-side`, "High side"], "134", "psig");
  await read(hand, [`${place}/reading/vent-temperature`, "Vent air"], "45.1", "°F");
}
