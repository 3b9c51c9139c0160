import { parseNumber } from "../../../units/index.ts";

/** An amount of money of a currency as its text names it. */
export interface Price {
  readonly amount: number;
  readonly currency: string;
}

const SIGNS: Readonly<Record<string, string>> = {
  "€": "EUR",
  "£": "GBP",
  "¥": "JPY or CNY",
  $: "$",
};
const AMOUNT = /\d[\d.,' ]*/u;
const CODE = /\b([A-Z]{3})\b/u;

/**
 * A price as people type it: "$12.95", "12,95 EUR each". Nothing where there is no amount, no currency, or two of
 * either: a guess would be worse.
 */
export function readPrice(text: string | undefined): Price | undefined {
  if (text === undefined) return undefined;
  const amounts = text.match(/\d[\d.,']*/gu) ?? [];
  const digits = AMOUNT.exec(text)?.[0]
    .trim()
    .replace(/[.,']+$/u, "");
  const signs: readonly string[] = text.match(/[€£¥$]/gu) ?? [];
  const codes = text.match(new RegExp(CODE, "gu")) ?? [];
  const currency = codes[0] ?? SIGNS[signs[0] ?? ""];
  if (amounts.length !== 1 || codes.length > 1 || signs.length > 1) return undefined;
  if (digits === undefined || currency === undefined) return undefined;
  const parsed = parseNumber(digits);
  return parsed.kind === "invalid" || !(parsed.value > 0)
    ? undefined
    : { amount: parsed.value, currency };
}
