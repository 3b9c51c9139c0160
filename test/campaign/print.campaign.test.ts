import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { renderReport } from "../../src/report/index.ts";
import { parseExport } from "../../src/trial/index.ts";
import { launchChromium } from "../browser/chromium.ts";

/** A whole trial with three products, every reading and every trace in it, on fewer than 60 sheets of either paper. */
const MOST = 60;

test("the demonstration's report prints on any paper without waste", async () => {
  const text = readFileSync("data/demonstration/harbour.json", "utf8");
  const file = parseExport(JSON.parse(text) as unknown);
  if (file.kind !== "export") throw new RangeError("the demonstration does not parse");
  const options = { generatedAt: "2026-08-20T12:00:00Z", units: "as-typed", program: "0" } as const;
  const browser = await launchChromium();
  try {
    const page = await browser.newPage();
    await page.setContent(renderReport(file.events, options));
    for (const format of ["A4", "Letter"]) {
      const pdf = (await page.pdf({ format })).toString("latin1");
      const sheets = pdf.match(/\/Type \/Page\b/g)?.length ?? 0;
      expect(sheets, format).toBeGreaterThan(20);
      expect(sheets, format).toBeLessThan(MOST);
    }
  } finally {
    await browser.close();
  }
});
