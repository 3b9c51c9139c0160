// A Chromium for the tests: the machine's own, else Debian's, else the one playwright-core downloads.
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { root, stamp, writeStamp } from "./checkout.mjs";
import { SetUpError, run, say, which } from "./run.mjs";
import { aptInstall, canInstall, tail } from "./system.mjs";

const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/** Writes the path of a browser that answers to the stamp `browser`, where the tests read it. */
export async function prepareBrowser() {
  const last = stamp("browser");
  if (last !== undefined && existsSync(last)) return;
  const path = (await firstThatRuns()) ?? (await install());
  writeStamp("browser", path);
}

async function firstThatRuns() {
  const candidates = [
    process.env.COLDPROOF_BROWSER,
    ...names.map(which),
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    playwrights(),
  ];
  for (const path of candidates) {
    // Some systems have a stub of that name which only says how to install the real one.
    if (path && existsSync(path) && (await run(path, ["--version"])).code === 0) return path;
  }
  return undefined;
}

function playwrights() {
  return createRequire(join(root, "package.json"))("playwright-core").chromium.executablePath();
}

async function install() {
  let reason = "";
  if (await canInstall()) {
    try {
      await aptInstall(["chromium", "fonts-dejavu-core"], "run the browser tests");
    } catch (error) {
      if (!(error instanceof SetUpError)) throw error;
      reason = error.message;
    }
    const found = await firstThatRuns();
    if (found !== undefined) return found;
  }
  say("downloading Chromium for the browser tests");
  const tool = join(root, "node_modules/playwright-core/cli.js");
  const done = await run(process.execPath, [tool, "install", "chromium"]);
  const found = await firstThatRuns();
  if (found !== undefined) return found;
  throw new SetUpError(
    `no Chromium found for the browser tests, and none could be installed.\n${tail(reason)}\n${tail(done.output)}\nInstall Chromium (on Debian: sudo apt-get install chromium), or give its path in COLDPROOF_BROWSER, then try again.`,
  );
}
