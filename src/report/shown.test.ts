import { describe, expect, test } from "vitest";
import { decimalsOfStep, shownDifference, shownIn, tickTexts } from "./shown.ts";

const air = 101_325;
const plain = (text: string): string => text.replaceAll(/[\u00a0\u202f]/g, " ");

describe("a quantity in the reader's unit", () => {
  test("carries the 95 % half-width to two digits, the value to the same place", () => {
    const pair = shownIn("psig", air).pair({ value: air + 69 * 6894.757293, u: 8_000 });
    expect(plain(pair)).toBe("69.0 ± 2.3 psig");
  });

  test("never breaks a line between value and uncertainty", () => {
    expect(shownIn("°C").pair({ value: 280.25, u: 0.8 })).not.toMatch(/ /);
  });

  test("without an uncertainty shows what a shop instrument shows", () => {
    expect(plain(shownIn("g").pair({ value: 0.211, u: 0 }))).toBe("211 g");
  });

  test("writes declared values without zeros that nobody declared", () => {
    expect(plain(shownIn("m").nominal(640))).toBe("640 m");
    expect(plain(shownIn("m3").nominal(4.1))).toBe("4.1 m³");
    expect(plain(shownIn("psig", air).nominal(air + 400 * 6894.757293))).toBe("400 psig");
  });
});

describe("a difference", () => {
  test("has a sign, no zero of its scale and no local air", () => {
    expect(plain(shownDifference("°F").pair({ value: 2.5, u: 0.5 }))).toBe("+4.5 ± 1.8 °F");
    expect(plain(shownDifference("psig").pair({ value: -6894.757293, u: 3_000 }))).toBe(
      "−1.00 ± 0.85 psi",
    );
  });

  test("writes zero without a sign", () => {
    expect(plain(shownDifference("g").text(0))).toBe("0 g");
  });
});

test("ticks have the decimals that their step needs and no more", () => {
  expect(tickTexts([0, 0.5, 1])).toEqual(["0.0", "0.5", "1.0"]);
  expect(tickTexts([0, 500, 1000])).toEqual(["0", "500", "1000"]);
  expect(decimalsOfStep(0.02)).toBe(2);
});
