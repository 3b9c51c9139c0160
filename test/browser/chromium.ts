import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { root } from "../kill/bundle.ts";

/** Starts the browser that set-up found or installed. */
export function launchChromium(): Promise<Browser> {
  const executablePath = readFileSync(join(root, ".stamps/browser"), "utf8");
  // The sandbox needs rights that containers rarely give; only our own pages are opened.
  return chromium.launch({ executablePath, args: ["--no-sandbox"] });
}
