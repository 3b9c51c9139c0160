import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { parseExport } from "../trial/index.ts";
import { renderReport } from "./render-report.ts";

const demonstration = (): Parameters<typeof renderReport>[0] => {
  const text = readFileSync("data/demonstration/hill-town.json", "utf8");
  const file = parseExport(JSON.parse(text));
  if (file.kind !== "export") throw new RangeError("the demonstration does not parse");
  return file.events;
};

test("the demonstration's report is small, and the same for the same log in any order", () => {
  const events = demonstration();
  const options = { generatedAt: "2026-06-20T12:00:00Z", units: "us" } as const;
  const html = renderReport(events, options);
  expect(html.length).toBeLessThan(1_500_000);
  expect(renderReport([...events].reverse(), options)).toBe(html);
  expect(html).toContain("Every name and number in it is invented");
});
