import { expect, test } from "vitest";
import fc from "fast-check";
import { readClaim, refrigerantIn } from "./read-claim.ts";

const kindsOf = (text: string) => readClaim(text).map(({ kind }) => kind);

test.each([
  ["One can of 240 g equals 680 g of R134a.", "equals-mass"],
  ["6 oz. = equivalent to 16 oz of HFC-134a", "equals-mass"],
  ["NET WT 6 OZ (170 g)", "net-mass"],
  ["Net contents: 228 g", "net-mass"],
  ["340 g net.", "net-mass"],
  ["Drop-in: no parts to change.", "drop-in"],
  ["Contains only pure R-134a", "contains"],
  ["100 % propane", "contains"],
  ["Non-flammable", "not-flammable"],
  ["Does not deplete the ozone layer", "no-ozone-depletion"],
  ["Zero ODP", "no-ozone-depletion"],
  ["Ultra low GWP", "gwp"],
  ["A drop-in for every system", "drop-in"],
  ["Compatible with all oils", "drop-in"],
  ["Lower head pressure", "lower-head-pressure"],
  ["Reduces the high-side pressure", "lower-head-pressure"],
  ["Blows colder air", "colder-air"],
  ["Certified to a standard", "approved"],
  ["Makes every drive a joy", "other"],
])("%s", (text, kind) => {
  expect(kindsOf(text)).toEqual([kind]);
});

test("several statements of one sentence", () => {
  expect(kindsOf("Colder air, lower head pressure and no ozone depletion")).toEqual([
    "no-ozone-depletion",
    "lower-head-pressure",
    "colder-air",
  ]);
});

test("masses stand on their side of the verb, in their unit", () => {
  expect(readClaim("One can of 240 g equals 680 g of R134a.")).toEqual([
    { kind: "equals-mass", mass: 0.24, equals: 0.68, of: "R134a" },
  ]);
  const [ounces] = readClaim("equivalent to 16 oz of R-12");
  expect(ounces).toMatchObject({ of: "R12" });
  // 1 oz is 28.349523125 g.
  expect(ounces?.equals).toBeCloseTo(16 * 0.028349523125, 12);
});

test.each([
  ["Zero GWP", 0.5],
  ["GWP < 4", 4],
  ["a GWP of 3", 3],
  ["low GWP", 150],
])("%s: at most %d", (text, limit) => {
  expect(readClaim(text)).toEqual([{ kind: "gwp", limit }]);
});

test.each([
  ["HFO-1234yf", "R1234yf"],
  ["R-152a", "R152a"],
  ["isobutane", "R600a"],
  ["butane", "R600"],
  ["a mix of hydrocarbons", "hydrocarbons"],
  ["R513A", "R513A"],
  ["in 2024", undefined],
])("%s is %s", (text, name) => {
  expect(refrigerantIn(text)).toBe(name);
});

test("any text is read as something", () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 300 }), (text) => {
      const readings = readClaim(text);
      expect(readings.length).toBeGreaterThan(0);
      for (const { mass, equals, limit } of readings) {
        for (const each of [mass, equals, limit]) {
          if (each !== undefined) expect(Number.isFinite(each)).toBe(true);
        }
      }
    }),
    { seed: 99, numRuns: 2000 },
  );
});
