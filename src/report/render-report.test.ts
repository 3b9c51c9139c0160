import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { exportTrial, parseExport } from "../trial/index.ts";
import { checkReport, renderReport } from "./render-report.ts";
import { type CarriedData, openPage, sealPage } from "./seal/sealed-page.ts";
import { isSigned, newSigningKey, publicKeyOf } from "./seal/signature.ts";

const demonstration = (): Parameters<typeof renderReport>[0] => {
  const text = readFileSync("data/demonstration/hill-town.json", "utf8");
  const file = parseExport(JSON.parse(text));
  if (file.kind !== "export") throw new RangeError("the demonstration does not parse");
  return file.events;
};
const key = newSigningKey();
const options = {
  generatedAt: "2026-06-20T12:00:00Z",
  units: "us",
  program: "1.0.0",
  key,
} as const;
const events = demonstration();
const html = renderReport(events, options);

test("the demonstration's report is small, and the same for the same log in any order", () => {
  expect(html.length).toBeLessThan(1_500_000);
  expect(renderReport([...events].reverse(), options)).toBe(html);
  expect(html).toContain("Every name and number in it is invented");
});

test("a report is recomputed from its file alone, to the last bit, and gives its log back", () => {
  const seen = checkReport(html, "1.0.0");
  if (seen.kind !== "checked") throw new Error(seen.why);
  expect(seen.differences).toEqual([]);
  expect(seen.checks.map(({ name, outcome }) => `${name} ${outcome}`)).toEqual([
    "bytes holds",
    "signature holds",
    "log holds",
    "figures holds",
    "page holds",
  ]);
  expect(seen.signedBy).toBe(publicKeyOf(key));
  expect(exportTrial(seen.events)).toEqual(exportTrial(events));
});

test("a reading altered in the log that it carries is named by every figure that hangs on it", () => {
  const opened = openPage(html);
  if (opened.kind === "not-sealed") throw new Error(opened.why);
  const altered = JSON.stringify(opened.data).replace(
    /"value":\{"value":(\d)/,
    '"value":{"value":9$1',
  );
  // Sealed anew by whoever altered it: the bytes hold again, what follows from them does not.
  const forged = sealPage(opened.page, JSON.parse(altered) as CarriedData);
  const seen = checkReport(forged, "1.0.0");
  if (seen.kind !== "checked") throw new Error(seen.why);
  const failed = seen.checks.filter(({ outcome }) => outcome === "fails").map(({ name }) => name);
  expect(failed).toEqual(expect.arrayContaining(["log", "figures"]));
  expect(seen.differences.length).toBeGreaterThan(0);
});

test("any altered character of the real page is found by its digest or its signature alone", () => {
  const whole = (text: string): boolean => {
    const opened = openPage(text);
    if (opened.kind !== "sealed" || opened.written !== opened.digest) return false;
    return opened.signature !== undefined && isSigned(opened.digest, opened.signature);
  };
  // The block of digest and signature stands at the end, and is no part of what the digest covers.
  const end = { min: html.length - 450, max: html.length - 1 };
  const places = fc.oneof(fc.nat(html.length - 1), fc.integer(end));
  expect(whole(html)).toBe(true);
  fc.assert(
    fc.property(places, fc.integer({ min: 32, max: 126 }), (at, code) => {
      const other = String.fromCharCode(code);
      if (html[at] === other) return;
      expect(whole(html.slice(0, at) + other + html.slice(at + 1))).toBe(false);
    }),
    { numRuns: 100, seed: 8 },
  );
});
