import { expect, test } from "vitest";
import { unitChoice } from "./choose-unit.ts";
import { shuttle } from "./shuttle.fixture.ts";

test("each system has its own units", () => {
  const units = (["us", "si"] as const).map((system) => {
    const choice = unitChoice(shuttle, system);
    return [choice.quantity("high-side"), choice.quantity("vacuum"), choice.thing("mass")].map(
      ({ unit }) => unit,
    );
  });
  expect(units).toEqual([
    ["psig", "micron", "lb"],
    ["bar(g)", "mbar", "kg"],
  ]);
});

test("as typed, a reading keeps its unit and a family of quantities shares the usual one", () => {
  const choice = unitChoice(shuttle, "as-typed");
  expect(choice.quantity("metal-temperature", "°C").unit).toBe("°C");
  expect(choice.quantity("low-side").unit).toBe("psig");
  expect(choice.quantity("return-air-temperature").unit).toBe(
    choice.quantity("outside-temperature").unit,
  );
});

test("a can weighed in grams stays in grams where SI is asked for, not where pounds are", () => {
  expect(unitChoice(shuttle, "si").quantity("gross-mass", "g").unit).toBe("g");
  expect(unitChoice(shuttle, "us").quantity("gross-mass", "g").unit).toBe("lb");
});
