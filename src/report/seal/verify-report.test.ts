import fc from "fast-check";
import { expect, test } from "vitest";
import { exportTrial, logSeal, project, type StoredEvent } from "../../trial/index.ts";
import { type CarriedData, openPage, sealPage } from "./sealed-page.ts";
import { isSigned, newSigningKey, publicKeyOf, signDigest } from "./signature.ts";
import { type Recompute, verifyReport } from "./verify-report.ts";

const trial = "018f0000-0000-7000-8000-000000000001";
const event = (n: number, type: string, body: object): StoredEvent =>
  ({
    id: `018f0000-0000-7000-8000-00000000010${n}`,
    trial,
    at: `2026-06-14T07:0${n}:00.000Z`,
    device: "bay",
    type,
    v: 1,
    body,
  }) as StoredEvent;
const events = [
  event(1, "trial-opened", { title: "A <script>alert(1)</script> title", question: "Is it?" }),
  event(2, "note-written", { stage: "plan", text: "</script><b>bold & \u2028 odd</b>" }),
  event(3, "reading-taken", {
    stage: "prove",
    quantity: "vent-temperature",
    value: { value: 44.6, unit: "°F" },
    form: "steady",
  }),
];

const readingsOf = (log: readonly StoredEvent[]) =>
  project(log).readings.map(({ quantity, value }) => ({ quantity, value }));
const again: Recompute = {
  program: "1.2.3",
  figures: readingsOf,
  page: (log, { generatedAt }) =>
    `<!doctype html>\n<html><body><p>${log.length} at ${generatedAt}</p></body></html>\n`,
};
const data: CarriedData = {
  format: "coldproof-report",
  version: 1,
  program: "1.2.3",
  generatedAt: "2026-06-15T00:00:00Z",
  units: "si",
  log: exportTrial(events),
  seal: logSeal(events),
  figures: readingsOf(events),
};
const key = newSigningKey();
const sealed = sealPage(again.page(events, data), data, key);

const outcomes = (html: string): Readonly<Record<string, string>> => {
  const seen = verifyReport(html, again);
  if (seen.kind === "not-a-report") return { kind: seen.why };
  return Object.fromEntries(seen.checks.map(({ name, outcome }) => [name, outcome]));
};

test("a report as it was written holds in every point and gives its log back", () => {
  const seen = verifyReport(sealed, again);
  expect(seen).toMatchObject({ kind: "checked", sound: true, signedBy: publicKeyOf(key), trial });
  if (seen.kind === "checked") expect(exportTrial(seen.events)).toEqual(exportTrial(events));
});

test("no text of a trial can end the block that carries it", () => {
  expect(sealed.match(/<\/script>/g)).toHaveLength(2);
  expect(sealed).not.toContain("<b>bold");
});

test("any single altered, lost or doubled character is found", () => {
  fc.assert(
    fc.property(
      fc.nat(sealed.length - 1),
      fc.constantFrom("alter", "drop", "double"),
      fc.integer({ min: 32, max: 126 }),
      (at, act, code) => {
        const old = sealed[at] ?? "";
        const other = String.fromCharCode(code);
        if (act === "alter" && other === old) return;
        const middle = act === "drop" ? "" : act === "double" ? old + old : other;
        const seen = verifyReport(sealed.slice(0, at) + middle + sealed.slice(at + 1), again);
        expect(seen.kind === "checked" && seen.sound).toBe(false);
      },
    ),
    { numRuns: 3000, seed: 8 },
  );
});

test("a forger who seals anew is caught where figures do not follow, and loses the signature", () => {
  const forged = { ...data, figures: [{ quantity: "vent-temperature", value: 270 }] };
  const html = sealPage(again.page(events, data), forged);
  expect(outcomes(html)).toMatchObject({
    bytes: "holds",
    signature: "not-asked",
    figures: "fails",
  });
  const seen = verifyReport(html, again);
  if (seen.kind !== "checked") throw new Error("it is a report");
  expect(seen.differences).toEqual([
    { at: "0.value", stated: 270, recomputed: expect.closeTo(280.15, 2) as number },
  ]);
  const words = sealPage("<html><body><p>cold</p></body></html>", data);
  expect(outcomes(words)).toMatchObject({ bytes: "holds", page: "fails" });
});

test("another version compares figures within a tolerance and does not ask for the same page", () => {
  const later = { ...again, program: "2.0.0", page: () => "other" };
  const seen = verifyReport(sealed, later);
  expect(seen).toMatchObject({ kind: "checked", sound: true });
});

test("texts that are no report are told apart from forged ones", () => {
  for (const text of ["", "<html></html>", sealed.slice(0, sealed.length / 2), "report-data"]) {
    expect(verifyReport(text, again).kind).toBe("not-a-report");
  }
  const later = { ...data, version: 9 } as unknown as CarriedData;
  expect(openPage(sealPage(again.page(events, data), later)).kind).toBe("not-sealed");
});

// RFC 8032, 7.1, test 1 (empty message) is the library's own test; here our message has a domain before it.
test("a signature belongs to one digest and one key", () => {
  const digest = "ab".repeat(32);
  const signature = signDigest(digest, key);
  expect(isSigned(digest, signature)).toBe(true);
  expect(isSigned("cd".repeat(32), signature)).toBe(false);
  expect(isSigned(digest, { ...signature, publicKey: publicKeyOf(newSigningKey()) })).toBe(false);
  expect(isSigned(digest, { ...signature, publicKey: "ff".repeat(32) })).toBe(false);
  expect(isSigned(digest, { ...signature, signature: "no" })).toBe(false);
});
