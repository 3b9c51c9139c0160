import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { renderReport } from "../../src/report/index.ts";
import { parseExport } from "../../src/trial/index.ts";

/** The demonstration's report in a real browser: nothing overflows, nothing is asked for, axe finds nothing. */

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface AxeRun {
  readonly violations: readonly {
    readonly id: string;
    readonly impact: string | null;
    readonly nodes: readonly { readonly html: string }[];
  }[];
}

function report(): string {
  const file = parseExport(
    JSON.parse(readFileSync("data/demonstration/harbour.json", "utf8")) as unknown,
  );
  if (file.kind !== "export") throw new RangeError("the demonstration does not parse");
  return renderReport(file.events, {
    generatedAt: "2026-06-20T12:00:00Z",
    units: "us",
    program: "0.0.0",
  });
}

const html = report();

test("the whole demonstration weighs less than 1.5 MB", () => {
  expect(Buffer.byteLength(html)).toBeLessThan(1_500_000);
});

let browser: Browser;
beforeAll(async () => {
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
});
afterAll(() => browser.close());

async function opened(
  width: number,
  colorScheme: "light" | "dark",
): Promise<{ page: Page; requests: string[]; complaints: string[] }> {
  // The page's own policy forbids every script; axe is let in from outside.
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    colorScheme,
    bypassCSP: true,
  });
  const page = await context.newPage();
  const requests: string[] = [];
  const complaints: string[] = [];
  page.on("request", (request) => requests.push(request.url()));
  page.on("console", (message) => complaints.push(message.text()));
  await page.setContent(html);
  return { page, requests, complaints };
}

describe.each([
  [390, "light"],
  [390, "dark"],
  [1440, "light"],
  [1440, "dark"],
] as const)("at %i px, %s", (width, scheme) => {
  test("axe finds no violation", async () => {
    const { page } = await opened(width, scheme);
    await page.addScriptTag({ content: axe });
    const found = await page.evaluate<AxeRun>("axe.run()");
    const told = found.violations.map(({ id, impact, nodes }) => ({
      id,
      impact,
      first: nodes[0]?.html.slice(0, 200),
    }));
    expect(told).toEqual([]);
    await page.context().close();
  });

  test("nothing is wider than the screen, nothing is fetched", async () => {
    const { page, requests, complaints } = await opened(width, scheme);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(width);
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

test("no label of a picture leaves its picture or lies on another", async () => {
  for (const width of [390, 1440]) {
    const { page } = await opened(width, "light");
    const clashes = await page.evaluate(() => {
      const found: string[] = [];
      for (const picture of document.querySelectorAll("svg.pic-drawing")) {
        const frame = picture.getBoundingClientRect();
        if (frame.width === 0) continue;
        const texts = [...picture.querySelectorAll("text")].filter((one) => one.textContent !== "");
        const boxes = texts.map((one) => one.getBoundingClientRect());
        boxes.forEach((box, i) => {
          const name = `${picture.querySelector("title")?.textContent ?? ""}: ${texts[i]?.textContent ?? ""}`;
          if (box.left < frame.left - 1 || box.right > frame.right + 1) found.push(`out ${name}`);
          boxes.slice(i + 1).forEach((other, j) => {
            const across = Math.min(box.right, other.right) - Math.max(box.left, other.left);
            const down = Math.min(box.bottom, other.bottom) - Math.max(box.top, other.top);
            if (across > 1 && down > 4)
              found.push(`on ${name} / ${texts[i + 1 + j]?.textContent ?? ""}`);
          });
        });
      }
      return found;
    });
    expect(clashes).toEqual([]);
    await page.context().close();
  }
});

test("paper shows what a click would unfold", async () => {
  const { page } = await opened(1440, "light");
  await page.emulateMedia({ media: "print" });
  const hidden = await page.evaluate(
    () =>
      [...document.querySelectorAll("details:not(.only-narrow) table")].filter(
        (table) => table.getBoundingClientRect().height === 0,
      ).length,
  );
  expect(hidden).toBe(0);
  const pdf = await page.pdf({ preferCSSPageSize: true });
  expect(pdf.length).toBeGreaterThan(20_000);
  await page.context().close();
});
