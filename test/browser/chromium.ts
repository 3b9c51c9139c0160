import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { root } from "../kill/bundle.ts";

/** The browser that set-up found or installed. */
export const browserPath = (): string => readFileSync(join(root, ".stamps/browser"), "utf8");

/** Starts it. */
export function launchChromium(): Promise<Browser> {
  // The sandbox needs rights that containers rarely give; only our own pages are opened.
  return chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox"] });
}
