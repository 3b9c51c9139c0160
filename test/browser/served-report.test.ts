import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { checkReport, renderReport } from "../../src/report/index.ts";
import { eventsOf, listen } from "../../src/server/index.ts";
import { memoryServer, post } from "../doors/memory-server.ts";
import { root } from "../kill/bundle.ts";
import { launchChromium } from "./chromium.ts";

test("the server's policy lets a report show as it was written, and run nothing", async () => {
  const { handle } = await memoryServer({
    report: async (log, units) =>
      renderReport(await eventsOf(log), {
        generatedAt: "2026-07-01T12:00:00Z",
        units,
        program: "0.0.0",
      }),
  });
  const file = readFileSync(join(root, "data/demonstration/hill-town.json"), "utf8");
  const imported = await handle(post("/api/trials/import", file));
  const { trial } = (await imported.json()) as { trial: string };
  const server = await listen(handle, { port: 0, exact: true });
  if (server.kind === "refused") throw new Error(server.reason);
  const browser = await launchChromium();
  try {
    const page = await browser.newPage();
    const said: string[] = [];
    page.on("console", (message) => said.push(message.text()));
    const response = await page.goto(`${server.url}/api/trials/${trial}/report?units=us`);
    expect(response?.status()).toBe(200);
    expect(checkReport((await response?.text()) ?? "", "0.0.0")).toMatchObject({
      sound: true,
      trial,
    });
    // Chromium reports on the console whatever a policy stops.
    expect(said).toEqual([]);
    const margin = await page.evaluate(() => getComputedStyle(document.body).marginTop);
    expect(margin, "the page's own style sheet applies").not.toBe("8px");
  } finally {
    await browser.close();
    await server.stop();
  }
});
