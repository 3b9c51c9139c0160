import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { browserPath } from "../chromium.ts";

/** A browser whose profile outlives it, and that can end at once, as a battery does. */
export function mortalBrowser() {
  const profile = mkdtempSync(join(tmpdir(), "coldproof-profile-"));
  let context: BrowserContext | undefined;
  return {
    async open(url: string): Promise<Page> {
      context = await chromium.launchPersistentContext(profile, {
        executablePath: browserPath(),
        args: ["--no-sandbox"],
        viewport: { width: 390, height: 844 },
      });
      const page = context.pages()[0] ?? (await context.newPage());
      page.setDefaultTimeout(15_000);
      await page.goto(url);
      return page;
    },
    async kill(): Promise<void> {
      if (!context) throw new RangeError("no browser is open");
      const devtools = await context.browser()?.newBrowserCDPSession();
      const { processInfo } = (await devtools?.send("SystemInfo.getProcessInfo")) ?? {
        processInfo: [],
      };
      const main = processInfo.find(({ type }) => type === "browser");
      if (!main) throw new RangeError("the browser does not name its process");
      const gone = new Promise((resolve) => context?.once("close", resolve));
      process.kill(main.id, "SIGKILL");
      await gone;
      context = undefined;
    },
    async end(): Promise<void> {
      await context?.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}
