import { expect, test } from "vitest";
import { readPrice } from "./price.ts";

test.each([
  ["$12.95", { amount: 12.95, currency: "$" }],
  ["12,95 EUR each", { amount: 12.95, currency: "EUR" }],
  ["€ 9", { amount: 9, currency: "EUR" }],
  ["14.99 USD per can", { amount: 14.99, currency: "USD" }],
  ["about twelve", undefined],
  ["12.95", undefined],
  ["$10 to $12", undefined],
  ["2 for $20", undefined],
  ["USD or EUR 10", undefined],
  ["$0", undefined],
  [undefined, undefined],
])("%s", (text, price) => {
  expect(readPrice(text)).toEqual(price);
});
