import type { FluidId } from "../../fluids/index.ts";
import { logNormal } from "../../inference/index.ts";
import { substanceFacts } from "../../service/index.ts";
import type { DetectorEvidence, IdentifierEvidence } from "./evidence.ts";

/** What detectors and identifiers make of a composition: shares by mass. */

/** How strongly a combustible-gas detector answers to a class, 0 to 1 (common practice, no source). */
const FLAME_ANSWER: Readonly<Record<string, number>> = { "3": 1, "2": 0.8, "2L": 0.5, "1": 0 };
/** Mass fraction above which a detector's answer is as good as it gets (common practice, no source). */
const FULL_ANSWER = 0.03;
/** How often a detector answers yes to nothing, and no to what it is made for (common practice, no source). */
export const DETECTOR_ERROR = 0.03;

const halogenated: ReadonlySet<string> = new Set([
  "fluoroalkane",
  "fluoroolefin",
  "chlorinated",
  "iodinated",
]);

function answerOf(fluid: FluidId, detects: DetectorEvidence["detects"]): number {
  const facts = substanceFacts(fluid);
  if (detects === "halogen") return halogenated.has(facts.family) ? 1 : 0;
  return FLAME_ANSWER[(facts.class?.value ?? "A1").slice(1)] ?? 0;
}

/** Shares by mass of a composition; undefined where it is not known what it is made of. */
export type Masses =
  { readonly fluids: readonly FluidId[]; readonly share: ArrayLike<number> } | undefined;

/** Probability that a detector answers yes. */
export function yesProbability(
  masses: Masses,
  {
    detects,
    falseYes = DETECTOR_ERROR,
    falseNo = DETECTOR_ERROR,
  }: Omit<DetectorEvidence, "kind" | "responded">,
): number {
  if (!masses) return 0.5;
  let answer = 0;
  for (const [i, fluid] of masses.fluids.entries()) {
    const reached = Math.min(1, (masses.share[i] ?? 0) / FULL_ANSWER);
    answer = Math.max(answer, answerOf(fluid, detects) * reached);
  }
  return falseYes + (1 - falseYes - falseNo) * answer;
}

type Category = IdentifierEvidence["parts"][number]["substance"];
/** What the identifiers of the trade name (SAE J1771, SAE J2912, from memory): everything else blurs these. */
export const identifierCategories: readonly Category[] = [
  "R134a",
  "R1234yf",
  "R12",
  "R22",
  "hydrocarbons",
  "air",
];
/** Standard uncertainty of a share that it can tell (common practice, no source). */
const SHARE_U = 0.02;
/** Of each part that it cannot tell, the share that turns up anywhere. */
const BLUR = 0.6;
/** Part of all answers that are nonsense: sealants, dirt, a fault. */
const NONSENSE = 0.02;

function categoryOf(fluid: FluidId): Category {
  if (fluid === "R728" || fluid === "R732" || fluid === "R740") return "air";
  return substanceFacts(fluid).family === "hydrocarbon" ? "hydrocarbons" : fluid;
}

/** Share of each category in a composition, and of what no category names. */
export function categoryShares(
  masses: NonNullable<Masses>,
  categories: readonly Category[],
): { readonly shares: Float64Array; readonly unknown: number } {
  const shares = new Float64Array(categories.length);
  let unknown = 0;
  for (const [i, fluid] of masses.fluids.entries()) {
    const share = masses.share[i] ?? 0;
    const at = categories.indexOf(categoryOf(fluid));
    const here = at < 0 ? categories.indexOf(fluid) : at;
    if (here < 0) unknown += share;
    else shares[here] = (shares[here] ?? 0) + share;
  }
  return { shares, unknown };
}

/** Reported shares by category, in the order of `categories`. */
export function reportedShares({ parts }: Pick<IdentifierEvidence, "parts">): {
  readonly categories: readonly Category[];
  readonly shares: Float64Array;
} {
  const named = parts.map(({ substance }) =>
    substance === "air" || substance === "hydrocarbons" ? substance : categoryOf(substance),
  );
  const categories = [...new Set([...identifierCategories, ...named])];
  const shares = new Float64Array(categories.length);
  parts.forEach(({ fraction }, i) => {
    const at = categories.indexOf(named[i] ?? "air");
    shares[at] = (shares[at] ?? 0) + fraction;
  });
  return { categories, shares };
}

/** ln of the density of an identifier's answer under a composition. */
export function identifierLog(
  masses: Masses,
  reported: { readonly categories: readonly Category[]; readonly shares: ArrayLike<number> },
  u = SHARE_U,
): number {
  const { categories, shares } = reported;
  // Any answer on the simplex, equally: (k − 1)! over its volume.
  let anything = 0;
  for (let k = 2; k < categories.length; k++) anything += Math.log(k);
  if (!masses) return anything;
  const truth = categoryShares(masses, categories);
  const sd = Math.hypot(u, BLUR * truth.unknown);
  let log = 0;
  // The shares sum to 1: the last one says nothing new.
  for (let k = 0; k < categories.length - 1; k++) {
    const mean = (truth.shares[k] ?? 0) + truth.unknown / categories.length;
    log += logNormal(shares[k] ?? 0, mean, sd);
  }
  const [sound, odd] = [Math.log(1 - NONSENSE) + log, Math.log(NONSENSE) + anything];
  const top = Math.max(sound, odd);
  return top + Math.log(Math.exp(sound - top) + Math.exp(odd - top));
}
