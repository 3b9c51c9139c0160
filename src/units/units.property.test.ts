import fc from "fast-check";
import { expect, test } from "vitest";
import {
  dimensions,
  formatQuantity,
  formatValue,
  fromSI,
  parseQuantity,
  toSI,
  type Unit,
  unitsOf,
} from "./index.ts";

const seed = 20240;
const units = dimensions.flatMap((dimension) => unitsOf(dimension));
const anyUnit = fc.constantFrom(...units);
/** Units of readings: a difference in bar has the id of the absolute unit and its own way of writing. */
const ofReadings = units.filter(({ dimension }) => !dimension.endsWith("-difference"));
const anyReadingUnit = fc.constantFrom(...ofReadings);
const anyAir = fc.double({ min: 5e4, max: 1.1e5, noNaN: true });
/** Values that every unit accepts: none below absolute zero. */
const anyValue = fc.double({ min: 0, max: 1e6, noNaN: true }).map((x) => Math.fround(x));

const parsed = (text: string, unit: Unit) => {
  const result = parseQuantity(text, unit.dimension, unit.id);
  if (result.kind === "invalid") throw new Error(`"${text}": ${result.accepted}`);
  return result.quantity;
};

test("there and back through SI gives the same number", () => {
  fc.assert(
    fc.property(anyUnit, anyValue, anyAir, ({ id, size }, value, air) => {
      const back = fromSI(toSI({ value, unit: id }, air), id, air);
      // The offset (air, 273.15 K) costs the digits that it has more than the value.
      const lost = (2e-16 * (air + 300)) / size;
      expect(Math.abs(back - value)).toBeLessThanOrEqual(4e-16 * value + 4 * lost);
    }),
    { seed, numRuns: 2000 },
  );
});

test("what was written as said is read as said", () => {
  fc.assert(
    fc.property(anyReadingUnit, anyValue, (unit, value) => {
      const quantity = { value, unit: unit.id };
      expect(parsed(formatQuantity(quantity), unit)).toEqual(quantity);
    }),
    { seed, numRuns: 2000 },
  );
});

test("what was rounded is read within half of its last digit", () => {
  fc.assert(
    fc.property(
      anyReadingUnit,
      anyValue,
      fc.double({ min: 1e-4, max: 1e4, noNaN: true }),
      (unit, value, u) => {
        const read = parsed(formatValue(value, unit.id, u), unit);
        expect(read.unit).toBe(unit.id);
        // Two digits of u: the last digit shown is at most a tenth of u.
        expect(Math.abs(read.value - value)).toBeLessThanOrEqual(0.0501 * u + 1e-9);
      },
    ),
    { seed, numRuns: 2000 },
  );
});

test("no text makes it throw or gives a number that is not finite", () => {
  const alphabet = fc.constantFrom(
    ...Array.from("0123456789.,-−eE+ psigbarkPaFC°lboz()\u202f\u0000€"),
  );
  const anyText = fc.oneof(
    fc.string(),
    fc.array(alphabet, { maxLength: 12 }).map((c) => c.join("")),
  );
  fc.assert(
    fc.property(anyText, fc.constantFrom(...dimensions), (text, dimension) => {
      const result = parseQuantity(text, dimension);
      if (result.kind === "quantity")
        expect(Number.isFinite(toSI(result.quantity, 1e5))).toBe(true);
      else expect(result.accepted.length).toBeGreaterThan(5);
    }),
    { seed, numRuns: 5000 },
  );
});
