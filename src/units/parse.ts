import type { Quantity } from "./convert.ts";
import { type Invalid, invalid, LONGEST_TEXT, parseNumber } from "./number.ts";
import { type Dimension, spellingOf, type Unit, unitById, unitsOf } from "./table.ts";

export type ParsedQuantity = { readonly kind: "quantity"; readonly quantity: Quantity } | Invalid;

/** Larger first: what may be written one after the other, as in "5 lb 3 oz". */
const compounds: readonly (readonly string[])[] = [
  ["lb", "oz"],
  ["h", "min", "s"],
];

const labels = (dimension: Dimension): string =>
  unitsOf(dimension)
    .map(({ label, name }) => (label === "" ? name : label))
    .join(", ");

/** Bare pressure words that do not say from where they count, with the family they belong to. */
const BARE = new Map([
  ["psi", ["psig", "psia"]],
  ["lb/in2", ["psig", "psia"]],
  ["bar", ["bar(g)", "bar"]],
  ["kpa", ["kPa(g)", "kPa"]],
  ["mpa", ["MPa(g)", "MPa"]],
  ["inhg", ["inHg(vac)", "inHg"]],
  ["mmhg", ["mmHg(vac)", "mmHg"]],
]);

type Found = { readonly kind: "unit"; readonly unit: Unit } | { kind: "unknown"; accepted: string };

const either = (word: string, ids: readonly string[]): Found => ({
  kind: "unknown",
  accepted: `${ids.map((id) => unitById(id).label).join(" or ")}: "${word}" alone does not say which`,
});

/**
 * The unit a word means. "psi" alone takes the reference of the field's own unit; "bar" or "mmHg" in a field that
 * counts from the air is refused, because the word is a unit of its own that counts from zero.
 */
function findUnit(word: string, dimension: Dimension, defaultUnit: string | undefined): Found {
  const spelling = spellingOf(word);
  const family = dimension === "pressure" && !/^mPa$/.test(word) ? BARE.get(spelling) : undefined;
  if (family) {
    const [fromAir = "", absolute = ""] = family;
    const ofField = family.find((id) => id === defaultUnit);
    const bareOnly = unitById(fromAir).spellings.some((known) => known.startsWith("psi"));
    if (bareOnly)
      return ofField === undefined
        ? either(word, family)
        : { kind: "unit", unit: unitById(ofField) };
    const counts = defaultUnit === undefined ? undefined : unitById(defaultUnit).reference;
    if (counts === unitById(fromAir).reference) return either(word, family);
    return { kind: "unit", unit: unitById(absolute) };
  }
  // Millipascal is nobody's reading and megapascal is one shift key away.
  const mistyped = /^mPa/.test(word);
  const unit = unitsOf(dimension).find(({ spellings }) => spellings.includes(spelling));
  if (unit && !mistyped) return { kind: "unit", unit };
  return { kind: "unknown", accepted: `a unit out of: ${labels(dimension)}` };
}

interface Part {
  readonly value: number;
  readonly unit: Unit;
}

const NUMBER_THEN_WORD =
  /^([+\-−–]?\s*[\d.,][\d.,\u0020\u00a0\u2009\u202f]*(?:e[+\-−–]?\d+)?)\s*(.*)$/iu;
/** "5 lb 3 oz": a number and a word, repeated. */
const REPEATED = /([\d.,]+)\s*([a-z]+)\.?\s*/giu;

function sumOf(parts: readonly Part[], sign: number): Quantity | undefined {
  const ids = parts.map(({ unit }) => unit.id);
  const order = compounds.find((ladder) => ids.every((id) => ladder.includes(id)));
  const first = parts[0];
  if (!order || !first) return undefined;
  const descending = ids.every(
    (id, i) => i === 0 || order.indexOf(id) > order.indexOf(ids[i - 1] ?? id),
  );
  if (!descending) return undefined;
  const sum = parts.reduce(
    (total, { value, unit }) => total + (value * unit.size) / first.unit.size,
    0,
  );
  return { value: sign * sum, unit: first.unit.id };
}

function parseCompound(text: string, dimension: Dimension): Quantity | undefined {
  const body = text.trim();
  const sign = /^[-−–]/u.test(body) ? -1 : 1;
  const rest = body.replace(/^[+\-−–]\s*/u, "");
  const matches = [...rest.matchAll(REPEATED)];
  if (matches.length < 2 || matches.map(([all]) => all).join("") !== rest) return undefined;
  const parts: Part[] = [];
  for (const [, digits = "", word = ""] of matches) {
    const number = parseNumber(digits);
    const found = findUnit(word, dimension, undefined);
    if (number.kind === "invalid" || found.kind === "unknown") return undefined;
    parts.push({ value: number.value, unit: found.unit });
  }
  return sumOf(parts, sign);
}

/** Refuses what no reading can be: below absolute zero of temperature or pressure. */
function checked(text: string, quantity: Quantity, unit: Unit): ParsedQuantity {
  if (!Number.isFinite(quantity.value * unit.size)) return invalid(text, "a finite number");
  if (unit.dimension === "temperature" && quantity.value * unit.size + unit.zero < 0) {
    return invalid(text, "a temperature at or above absolute zero");
  }
  if (unit.reference === "absolute" && quantity.value < 0) {
    return invalid(text, `zero or more: "${unit.label}" counts from perfect vacuum`);
  }
  if (unit.reference === "vacuum" && quantity.value < 0) {
    return invalid(text, `zero or more: "${unit.label}" counts down from the local air`);
  }
  return { kind: "quantity", quantity };
}

/**
 * A quantity as people write it: "85 psig", "80F", "5 lb 3 oz", "1,5 bar", "−0.31 bar(g)", "29.5 inHg vac".
 *
 * @param dimension   What it must measure; a unit of another dimension is refused.
 * @param defaultUnit Unit of a number without one; without it the unit must be written.
 * @returns the quantity in a unit of the table, or what would have been accepted.
 * @throws RangeError if `defaultUnit` is not a unit of the dimension: the caller's bug.
 */
export function parseQuantity(
  text: string,
  dimension: Dimension,
  defaultUnit?: string,
): ParsedQuantity {
  const fallback = unitsOf(dimension).find(({ id }) => id === defaultUnit);
  if (defaultUnit !== undefined && !fallback) {
    throw new RangeError(`"${defaultUnit}" is not a unit of ${dimension}`);
  }
  if (text.length > LONGEST_TEXT)
    return invalid(text, "a number with its unit, of ordinary length");
  if (text.trim() === "") return invalid(text, `a number with a unit out of: ${labels(dimension)}`);
  const compound = parseCompound(text, dimension);
  if (compound) return checked(text, compound, unitById(compound.unit));
  const [, digits, word = ""] = NUMBER_THEN_WORD.exec(text.trim()) ?? [];
  if (digits === undefined) {
    return invalid(text, `a number first, then a unit out of: ${labels(dimension)}`);
  }
  const number = parseNumber(digits);
  if (number.kind === "invalid") return invalid(text, number.accepted);
  const found: Found =
    word.trim() === "" && fallback
      ? { kind: "unit", unit: fallback }
      : findUnit(word.trim(), dimension, defaultUnit);
  if (found.kind === "unknown") return invalid(text, found.accepted);
  return checked(text, { value: number.value, unit: found.unit.id }, found.unit);
}
