import { expect, test } from "vitest";
import { spokenInstant } from "./instant.ts";

test("an instant is written as the language's own formatter writes it", () => {
  const days = new Intl.DateTimeFormat("en-GB", {
    day: "numeric",
    month: "short",
    year: "numeric",
  });
  for (let month = 0; month < 12; month++) {
    const date = new Date(2026, month, 3 + 2 * month, 8, month);
    const time = `08:${String(month).padStart(2, "0")}`;
    expect(spokenInstant(date.toISOString())).toBe(`${days.format(date)}, ${time}`);
  }
  expect(spokenInstant("yesterday")).toBe("yesterday");
});
