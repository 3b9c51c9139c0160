import { readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { attacked, attacks } from "./bay/attacks.ts";
import { handOn } from "./walk/hand.ts";
import { inputs } from "./walk/house.ts";
import { visit } from "./walk/visit.ts";

/** What is stored never acts: attacks in every free text of a log, on every screen and in the report. */
const here = visit();

/** What an attack has done: ran, made an element, or was stopped by the page's policy only. */
const done = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const marks = [
      ...document.querySelectorAll("[data-attack], a[href^='javascript'], a[href^='data:text']"),
    ];
    const { attacked: ran, violated = [] } = globalThis as { attacked?: 1; violated?: string[] };
    return [
      ...(ran ? ["it ran"] : []),
      ...marks.map(({ outerHTML }) => outerHTML.slice(0, 120)),
      ...violated,
    ];
  });

async function watched(): Promise<{ page: Page; dialogs: string[] }> {
  const page = await here.browser.newPage({ serviceWorkers: "block", reducedMotion: "reduce" });
  page.setDefaultTimeout(10_000);
  const dialogs: string[] = [];
  page.on("dialog", (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  await page.addInitScript(() => {
    const violated: string[] = [];
    Object.assign(globalThis, { violated });
    document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) => {
      violated.push(`${violatedDirective} ${blockedURI}`);
    });
  });
  return { page, dialogs };
}

const screens = [
  ...["plan", "prove", "restore", "compare", "hazards", "claims", "publish"].map(
    (stage) => `stage/${stage}/-`,
  ),
  ...["stages", "grams", "log", "fluids", "vehicle"],
  ...["reading/low-side", "transfer", "empty", "run", "import/run"].map(
    (step) => `stage/prove/-/${step}`,
  ),
];
const rounds = ["recover", "evacuate", "charge", "run", "identify"];

test("nothing in a hostile trial acts, in the app or in its report", async () => {
  const { page, dialogs } = await watched();
  const log: unknown = JSON.parse(readFileSync(join(inputs, "hill-town.json"), "utf8"));
  const file = join(tmpdir(), `coldproof-hostile-${process.pid}.json`);
  writeFileSync(file, JSON.stringify(attacked(log)));
  await page.goto(here.url);
  await page.locator("input[type=file]").setInputFiles(file);
  await page.getByRole("heading", { level: 1, name: "Plan" }).waitFor();
  const hand = handOn(page);
  const found: string[] = [];
  const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
  const all = [...screens, ...(await Promise.all(rounds.map((stage) => hand.round(stage))))];
  for (const screen of all) {
    await hand.open(screen, /\w/);
    found.push(...(await done(page)).map((what) => `${screen}: ${what}`));
  }
  await hand.open("stage/publish/-", "Publish");
  const [saved] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save the report" }).click(),
  ]);
  const report = join(tmpdir(), `coldproof-hostile-${process.pid}.html`);
  await saved.saveAs(report);
  // The saved file has no server's policy to stop it: only its own text keeps it quiet.
  for (const address of [`${here.url}/api/trials/${trial}/report`, pathToFileURL(report).href]) {
    await page.goto(address);
    found.push(...(await done(page)).map((what) => `${address}: ${what}`));
    expect(await page.locator("body").innerText()).toContain("<script data-attack>");
  }
  expect([found, dialogs]).toEqual([[], []]);
  await page.close();
});

test("attacks that are typed are shown as they were typed", async () => {
  const { page, dialogs } = await watched();
  await page.goto(here.url);
  const hand = handOn(page);
  await hand.press("New trial", "What is the question?");
  await hand.type("Name of the trial", attacks[1] ?? "");
  await hand.type("The question, fixed before the first reading", attacks[2] ?? "");
  await hand.type("Smallest vent difference that matters", "1");
  await hand.press("Start the trial", "Plan");
  for (const attack of attacks.slice(0, 8)) {
    await hand.open("stage/prove/-/note", "A note");
    await hand.type("Note", attack);
    await hand.press("Save the note", "Prove");
  }
  await hand.open("log", "The log");
  const text = await page.locator("main").innerText();
  for (const attack of attacks.slice(0, 8)) expect(text).toContain(attack);
  await page.goto(`${here.url}/#/pair/${encodeURIComponent(attacks[3] ?? "")}`);
  await page.getByRole("heading", { level: 1, name: "Pair this device" }).waitFor();
  expect(await page.getByLabel("The code").inputValue()).toBe(attacks[3]);
  expect([await done(page), dialogs]).toEqual([[], []]);
  await page.close();
});
