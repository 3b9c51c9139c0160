import { fluidIds, namedBlends } from "../../../fluids/index.ts";
import { parseQuantity, toSI } from "../../../units/index.ts";
import type { ClaimKind, ClaimReading } from "./kinds.ts";

/** Zero, as a rounded whole number; and what laws call low: 2006/40/EC and 40 CFR 84.54 draw the line at 150. */
const ZERO_GWP = 0.5;
const LOW_GWP = 150;

const MASS = /(\d+(?:[.,]\d+)?)\s*-?\s*(kg|g|grams?|oz\.?|ounces?|lbs?\.?|pounds?)(?![a-z])/giu;

interface FoundMass {
  readonly at: number;
  readonly mass: number;
}

function massesIn(text: string): FoundMass[] {
  return [...text.matchAll(MASS)].flatMap(({ index, 1: digits = "", 2: unit = "" }) => {
    const parsed = parseQuantity(`${digits} ${unit.replace(".", "")}`, "mass");
    return parsed.kind === "quantity" ? [{ at: index, mass: toSI(parsed.quantity) }] : [];
  });
}

const plain = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/gu, "");

const COMMON: readonly (readonly [RegExp, string])[] = [
  [/\biso-?butane\b/iu, "R600a"],
  [/\bn?-?butane\b/iu, "R600"],
  [/\bpropane\b/iu, "R290"],
  [/\bhydrocarbons?\b/iu, "hydrocarbons"],
];
/** "R-12", "HFC-134a"; without the letters before it a number needs one behind: "134a", but not "12". */
const BY_NUMBER =
  /\b(?:(?:r|hfc|hfo|hc|cfc|hcfc)[-\s]?(\d{2,4}[a-z]{0,3}(?:\([ez]\))?)|(\d{3,4}[a-z]{1,3}))(?![a-z0-9%])/giu;

/** A refrigerant named in a sentence, as it is called here. */
export function refrigerantIn(text: string): string | undefined {
  const known = [...fluidIds, ...namedBlends.map(({ name }) => name)];
  for (const [, named, bare] of text.replace(MASS, " ").matchAll(BY_NUMBER)) {
    const number = named ?? bare ?? "";
    const found = known.find((name) => plain(name) === `r${plain(number)}`);
    if (found) return found;
  }
  return COMMON.find(([words]) => words.test(text))?.[1];
}

/** Words by which a kind is known. */
const WORDS: readonly (readonly [ClaimKind, RegExp])[] = [
  ["equals-mass", /\b(?:equals?|equivalent|same as|equates|replaces \d)/iu],
  [
    "net-mass",
    /\bnet\s*(?:wt|weight|mass|contents?)\b|\bcontents?\s*:?\s*\d|\bnet\b.*\d|\d.*\bnet\b/iu,
  ],
  [
    "not-flammable",
    /\b(?:non|not|in)[-\s]?flammable\b|\bwon.?t (?:burn|ignite)\b|\bfire[-\s]?safe\b/iu,
  ],
  ["no-ozone-depletion", /\bozone\b|\bodp\b/iu],
  ["gwp", /\bgwp\b|\bglobal warming\b|\bgreenhouse\b/iu],
  ["approved", /\b(?:approved|certified|listed|complian(?:t|ce)|complies|snap|legal|meets)\b/iu],
  [
    "drop-in",
    /\bdrop[-\s]?in\b|\bcompatible\b|\bdirect replacement\b|\bno retrofit\b|\bworks (?:in|with) (?:any|all)\b/iu,
  ],
  [
    "lower-head-pressure",
    /\b(?:lower|reduced?|reduces|less)\b[^.;]*\bpressures?\b|\bpressures?\b[^.;]*\b(?:lower|reduced|drops?)\b/iu,
  ],
  [
    "colder-air",
    /\b(?:cold(?:er|est)?|cooler|chill(?:s|ier)?)\b[^.;]*|\b(?:more|better|improved) cooling\b/iu,
  ],
  ["contains", /\b(?:contains?|made (?:of|from)|consists|composed|pure)\b|\b100\s?%/iu],
];

function limitIn(text: string): number {
  const number = /(?:gwp|warming)[^\d]{0,30}?(\d+(?:[.,]\d+)?)|(\d+(?:[.,]\d+)?)\s*gwp/iu.exec(
    text,
  );
  const value = Number((number?.[1] ?? number?.[2])?.replace(",", "."));
  if (/\b(?:zero|no)\b/iu.test(text) || value === 0) return ZERO_GWP;
  return value > 0 ? value : LOW_GWP;
}

/** Masses of "240 g equals 680 g of R134a": before the verb the product's, behind it the other's. */
function equality(text: string): Omit<ClaimReading, "kind"> {
  const masses = massesIn(text);
  const verb = text.search(/\b(?:equals?|equivalent|same as|equates|replaces)\b/iu);
  const behind = masses.find(({ at }) => at > verb);
  const before = masses.find(({ at }) => at < verb);
  const equals = behind ?? before;
  const of = refrigerantIn(text);
  return {
    ...(equals && { equals: equals.mass }),
    ...(behind && before && { mass: before.mass }),
    ...(of !== undefined && { of }),
  };
}

function detailOf(kind: ClaimKind, text: string): Omit<ClaimReading, "kind"> {
  const of = refrigerantIn(text);
  const [first] = massesIn(text);
  switch (kind) {
    case "equals-mass":
      return equality(text);
    case "net-mass":
      return first ? { mass: first.mass } : {};
    case "gwp":
      return { limit: limitIn(text) };
    case "contains":
      return {
        ...(of !== undefined && { of }),
        ...(/\b(?:pure|100\s?%)/iu.test(text) && { pure: true }),
      };
    case "drop-in":
    case "not-flammable":
    case "no-ozone-depletion":
    case "lower-head-pressure":
    case "colder-air":
    case "approved":
    case "other":
      return {};
  }
}

/**
 * What a sentence of a label can be tested as: one statement or several, by rules on its words. What they get wrong a
 * person corrects; what they do not know is `other`.
 */
export function readClaim(text: string): readonly ClaimReading[] {
  const equals = WORDS[0]?.[1].test(text) === true && massesIn(text).length > 0;
  const found = WORDS.filter(([kind, words]) => {
    if (kind === "equals-mass") return equals;
    if (kind === "net-mass") return !equals && words.test(text) && massesIn(text).length > 0;
    if (kind === "contains") return words.test(text) && refrigerantIn(text) !== undefined;
    return words.test(text);
  }).map(([kind]) => ({ kind, ...detailOf(kind, text) }));
  return found.length > 0 ? found : [{ kind: "other" }];
}
