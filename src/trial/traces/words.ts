import type { ReadingQuantity } from "../events.ts";

/** Words that loggers put into headings, English and German, and what they suggest. The user decides. */
const quantityWords: readonly (readonly [ReadingQuantity, RegExp])[] = [
  ["return-air-humidity", /(return|intake|umluft).*(rh|humid|feucht)/iu],
  ["outside-humidity", /\b(rh|r\.h\.)\b|humid|feucht/iu],
  ["return-air-temperature", /return|intake|umluft|recirc/iu],
  ["vent-temperature", /vent|duct|outlet|austritt|ausström|louv/iu],
  ["outside-temperature", /outside|ambient|au(ß|ss)en|umgebung/iu],
  ["shop-temperature", /shop|garage|werkstatt|raum/iu],
  ["metal-temperature", /metal|pipe|metall|rohr/iu],
  ["low-side", /\blow\b|suction|\bnd\b|\blp\b|niederdruck|saug/iu],
  ["high-side", /\bhigh\b|discharge|\bhead\b|\bhd\b|\bhp\b|hochdruck/iu],
  ["vacuum", /vacuum|vakuum|micron/iu],
  ["engine-speed", /rpm|engine|drehzahl|u\/min/iu],
  ["vehicle-speed", /speed|km\/?h|mph|tempo|geschwindigkeit/iu],
  ["barometer", /baro|luftdruck/iu],
];

interface UnitWord {
  readonly pattern: RegExp;
  readonly unit: string;
  /** Said when the word leaves open from where it counts. */
  readonly doubt?: string;
}

const gaugeOrAbsolute = (word: string): string =>
  `"${word}" does not say whether it counts from the local air (gauge) or from vacuum (absolute); gauge is usual on loggers of this kind`;

const unitWords: readonly UnitWord[] = [
  { pattern: /psi\s*\(?g/iu, unit: "psig" },
  { pattern: /psi\s*\(?a/iu, unit: "psia" },
  { pattern: /psi/iu, unit: "psig", doubt: gaugeOrAbsolute("psi") },
  { pattern: /kpa\s*\(?(abs|a\b)/iu, unit: "kPa" },
  { pattern: /kpa\s*\(?g/iu, unit: "kPa(g)" },
  { pattern: /kpa/iu, unit: "kPa(g)", doubt: gaugeOrAbsolute("kPa") },
  { pattern: /mbar/iu, unit: "mbar" },
  { pattern: /micron/iu, unit: "micron" },
  { pattern: /\bbar\s*\(?(abs|a\b)/iu, unit: "bar" },
  { pattern: /\bbar\s*\(?g/iu, unit: "bar(g)" },
  { pattern: /\bbar\b/iu, unit: "bar(g)", doubt: gaugeOrAbsolute("bar") },
  { pattern: /km\/?h|kph/iu, unit: "km/h" },
  { pattern: /mph/iu, unit: "mph" },
  { pattern: /\bm\/s\b/iu, unit: "m/s" },
  { pattern: /rpm|u\/min|1\/min/iu, unit: "rpm" },
  { pattern: /°\s*c|\bdeg\s*c\b|\bc$/iu, unit: "°C" },
  { pattern: /°\s*f|\bdeg\s*f\b|\bf$/iu, unit: "°F" },
  { pattern: /%/u, unit: "%" },
];

export const suggestedQuantity = (heading: string): ReadingQuantity | undefined =>
  quantityWords.find(([, pattern]) => pattern.test(heading))?.[0];

export const suggestedUnit = (
  heading: string,
): { readonly unit: string; readonly doubt?: string } | undefined => {
  const found = unitWords.find(({ pattern }) => pattern.test(heading));
  if (!found) return undefined;
  const { unit, doubt } = found;
  return doubt === undefined ? { unit } : { unit, doubt };
};

export const isTimeHeading = (heading: string): boolean =>
  /time|zeit|clock|date|datum|second|sekunde|minute|^t$/iu.test(heading);

/** Unit of an elapsed time that its heading names. */
export function suggestedTimeUnit(heading: string): string | undefined {
  if (/min/iu.test(heading)) return "min";
  if (/hour|stunde|\bh\b/iu.test(heading)) return "h";
  return /sec|sek|\bs\b/iu.test(heading) ? "s" : undefined;
}
