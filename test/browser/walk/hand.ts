import type { Page } from "playwright-core";

/** A tester's hand on the app: finds things by the words on them, as a person does. */
export interface Hand {
  readonly page: Page;
  /** Types into the field with this label; a unit when one is named. */
  type(label: string, text: string, unit?: string): Promise<void>;
  /** Picks from a list, or marks one of a few. */
  pick(label: string, choice: string): Promise<void>;
  tick(label: string | RegExp): Promise<void>;
  /** Presses a button or a link and waits for the page that `heading` names. */
  press(name: string | RegExp, heading?: string | RegExp): Promise<void>;
  /** Opens a place of the trial. */
  open(place: string, heading: string | RegExp): Promise<void>;
  /** Opens every part that waits behind its title, in a part of the page. */
  unfold(within: string): Promise<void>;
  /** The place of a stage in the product's round. */
  round(stage: string): Promise<string>;
}

/** A test's server shares its thread with the hand: a report that it writes, some 7 s on a small machine, holds both up, ms. */
const patience = 30_000;

const heading = async (page: Page, text: string | RegExp): Promise<void> => {
  await page.getByRole("heading", { level: 1, name: text }).waitFor({ timeout: patience });
};

async function unfold(page: Page, within: string): Promise<void> {
  const folds = `${within} details.fold`;
  const closed = page.locator(`${folds}:not([open]) > summary`);
  while ((await closed.count()) > 0) {
    await closed.first().click();
    // What was folded is drawn then, and may hold more of them.
    await page.waitForFunction(
      (all) =>
        [...document.querySelectorAll(all)].every((one) =>
          one.querySelector(":scope > .fold-body"),
        ),
      `${folds}[open]`,
    );
  }
}

export function handOn(page: Page): Hand {
  page.setDefaultTimeout(patience);
  const main = page.locator("main");
  /** The label's own words, with or without what marks a field that may stay empty. */
  const field = (label: string) =>
    main
      .getByLabel(label, { exact: true })
      .or(main.getByLabel(`${label} · optional`, { exact: true }))
      .first();
  return {
    page,
    type: async (label, text, unit) => {
      if (unit !== undefined) await field(`${label}: unit`).selectOption(unit);
      await field(label).fill(text);
    },
    pick: async (label, choice) => {
      const group = main.getByRole("radiogroup", { name: label, exact: true });
      if ((await group.count()) > 0) await group.getByLabel(choice).first().check();
      else await field(label).selectOption({ label: choice });
    },
    tick: (label) => main.getByLabel(label).first().check(),
    press: async (name, next) => {
      const button = main.getByRole("button", { name }).or(main.getByRole("link", { name }));
      await button.first().click();
      if (next !== undefined) await heading(page, next);
    },
    open: async (place, text) => {
      const trial = /trial\/([^/]+)/.exec(page.url())?.[1] ?? "";
      // Any heading of the page before would satisfy a loose name: wait until the new page is painted.
      await page.evaluate(async (to) => {
        if (location.hash === to) return;
        const arrived = new Promise((resolve) => {
          addEventListener("hashchange", resolve, { once: true });
        });
        location.hash = to;
        await arrived;
        for (let frame = 0; frame < 2; frame++) await new Promise(requestAnimationFrame);
      }, `#/trial/${trial}/${place}`);
      await heading(page, text);
    },
    unfold: (within) => unfold(page, within),
    round: async (stage) => {
      const places = await page
        .locator(".stage-link")
        .evaluateAll((links) => links.map((link) => link.getAttribute("href") ?? ""));
      const found = places.find((place) => place.includes(`/stage/${stage}/`));
      return found?.replace(/^#\/trial\/[^/]+\//, "") ?? `stage/${stage}/-`;
    },
  };
}
