/** A text that is not what was asked for, and what would be. */
export interface Invalid {
  readonly kind: "invalid";
  readonly value: string;
  /** A sentence that says what is accepted. */
  readonly accepted: string;
}

export type ParsedNumber = { readonly kind: "number"; readonly value: number } | Invalid;

/** Longer texts are no numbers anybody typed; refusing them early bounds the work. */
export const LONGEST_TEXT = 80;

export const invalid = (value: string, accepted: string): Invalid => ({
  kind: "invalid",
  value: value.length > LONGEST_TEXT ? `${value.slice(0, LONGEST_TEXT)}…` : value,
  accepted,
});

const PLAIN = /^\d*\.?\d+(e[+-]?\d{1,3})?$|^\d+\.(e[+-]?\d{1,3})?$/;
const GROUPED_BY_COMMA = /^[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/;
const GROUPED_BY_POINT = /^[1-9]\d{0,2}(\.\d{3})+,\d+$|^[1-9]\d{0,2}(\.\d{3}){2,}$/;
const DECIMAL_COMMA = /^\d*,\d+(e[+-]?\d{1,3})?$/;
/** One comma before three digits: a decimal comma in one country, thousands in another. */
const EITHER = /^[1-9]\d{0,2},\d{3}$/;

/** Minus signs and the spaces of digit groups, as people and word processors write them. */
const tidy = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/^[−–‐‑]\s*/u, "-")
    .replace(/e[−–]/u, "e-")
    .replace(/(?<=\d)[ \u00a0\u2009\u202f](?=\d{3}(\D|$))/gu, "");

function digitsOf(body: string): string | undefined {
  if (PLAIN.test(body)) return body;
  if (GROUPED_BY_COMMA.test(body)) return body.replaceAll(",", "");
  if (GROUPED_BY_POINT.test(body)) return body.replaceAll(".", "").replace(",", ".");
  if (DECIMAL_COMMA.test(body)) return body.replace(",", ".");
  return undefined;
}

/**
 * A number with decimal point or decimal comma, with or without grouped thousands.
 *
 * "1,234" alone is refused: it is 1.234 in one country and 1234 in another.
 */
export function parseNumber(text: string): ParsedNumber {
  if (text.length > LONGEST_TEXT) return invalid(text, "a number of ordinary length");
  const tidied = tidy(text);
  if (tidied === "") return invalid(text, "a number, such as 85 or 1.5");
  const sign = tidied.startsWith("-") ? -1 : 1;
  const body = tidied.replace(/^[+-]/, "");
  if (EITHER.test(body)) {
    const [whole, part] = body.split(",") as [string, string];
    return invalid(text, `either ${whole}.${part} or ${whole}${part}: the comma could mean both`);
  }
  const digits = digitsOf(body);
  const value = digits === undefined ? NaN : sign * Number(digits);
  if (!Number.isFinite(value)) {
    return invalid(text, "a finite number with one decimal point or comma, such as 85, 1.5 or 1,5");
  }
  return { kind: "number", value: value === 0 ? 0 : value };
}
