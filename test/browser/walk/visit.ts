import type { Browser } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { launchChromium } from "../chromium.ts";
import { builtApp, endAll, openHouse } from "./house.ts";

export interface Visit {
  readonly browser: Browser;
  /** A server of the app with an empty log. */
  readonly url: string;
}

/** A browser and a server for all tests of a file; there from its first test on. */
export function visit(): Visit {
  let opened: Visit | undefined;
  beforeAll(async () => {
    opened = { browser: await launchChromium(), url: await openHouse(builtApp()) };
  });
  afterAll(async () => {
    await opened?.browser.close();
    await endAll();
  });
  const here = (): Visit => {
    if (opened === undefined) throw new Error("before the first test");
    return opened;
  };
  return {
    get browser() {
      return here().browser;
    },
    get url() {
      return here().url;
    },
  };
}
