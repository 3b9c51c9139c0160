import { isFluidId } from "../../fluids/index.ts";
import { toMoles } from "../../service/index.ts";
import type { KnownSubstance } from "./claims/context.ts";
import { knownSubstance, substanceOfMoles } from "./claims/known-substance.ts";

/** What the weighing of a can's evidence gave: as much of it as other findings rest on. */
export interface Identification {
  readonly verdict: "named" | "undecided" | "none-explains";
  readonly says: string;
  /** Most probable first. */
  readonly families: readonly {
    readonly id: string;
    readonly title: string;
    readonly kind: string;
    readonly probability: number;
  }[];
  /** Mass fractions with 95 % intervals, if the family is the right one. */
  readonly compositions: readonly {
    readonly family: string;
    readonly parts: readonly {
      readonly fluid: string;
      readonly mean: number;
      readonly from: number;
      readonly to: number;
    }[];
  }[];
  /** The same over all probable families together. */
  readonly overall: readonly {
    readonly fluid: string;
    readonly mean: number;
    readonly from: number;
    readonly to: number;
  }[];
  /** What stands without runs of a vehicle, where some were weighed: a forecast settles nothing. */
  readonly runs?: { readonly without: { readonly overall: Identification["overall"] } } | undefined;
  /** What leads without what the label declares, where it declares anything: a label settles nothing. */
  readonly withoutLabel?: { readonly family: string } | undefined;
  readonly hazards: readonly {
    readonly kind: "burns" | "toxic" | "attacks-aluminium" | "unknown";
    readonly probability: number;
    /** Families that bring it. */
    readonly families: readonly string[];
  }[];
}

/** Mass fractions below are no part of what stands for the content. */
const COUNTS = 0.005;
/** Where names are open but no part by more than this, the content is settled all the same (a choice, no source). */
const NARROW = 0.1;
/** Without its label another name may lead, if it is one of those that are still open (a choice, no source). */
const OPEN = 0.05;

/**
 * The content that an identification settled, as other findings take it: a fluid or blend by its name, a mixture by
 * the means of its parts. Names that differ in hardly a part settle it as well.
 *
 * @returns undefined while neither a family holds 95 % nor the parts are known to a tenth.
 */
export function identifiedSubstance(found: Identification): KnownSubstance | undefined {
  const { verdict, families, compositions } = found;
  const overall = found.runs?.without.overall ?? found.overall;
  const [leader] = families;
  if (verdict === "none-explains" || !leader) return undefined;
  if (verdict === "named") {
    const parts = compositions.find(({ family }) => family === leader.id)?.parts ?? [];
    return knownSubstance(leader.id) ?? ofParts(parts, leader.title);
  }
  const narrow = overall.length > 0 && overall.every(({ from, to }) => to - from <= NARROW);
  return narrow && isOpen(found) ? ofParts(overall) : undefined;
}

/** What leads without the label is among what the parts were told of. */
const isOpen = ({ families, withoutLabel }: Identification): boolean =>
  !withoutLabel ||
  families.some(({ id, probability }) => id === withoutLabel.family && probability >= OPEN);

function ofParts(
  parts: Identification["overall"],
  title = parts
    .filter(({ mean }) => mean > COUNTS)
    .map(({ fluid, mean }) => `${fluid} ${(100 * mean).toFixed(0)} %`)
    .join(", "),
): KnownSubstance | undefined {
  const known = parts.flatMap(({ fluid, mean }) =>
    isFluidId(fluid) && mean > COUNTS ? [{ fluid, fraction: mean }] : [],
  );
  const sum = known.reduce((all, { fraction }) => all + fraction, 0);
  if (!(sum > 0)) return undefined;
  const shares = known.map(({ fluid, fraction }) => ({ fluid, fraction: fraction / sum }));
  return substanceOfMoles(title, toMoles(shares));
}

/** Contents that identifications settled, by the product's id. */
export const identifiedSubstances = (
  found: ReadonlyMap<string, Identification>,
): ReadonlyMap<string, KnownSubstance> =>
  new Map(
    [...found].flatMap(([product, one]) => {
      const substance = identifiedSubstance(one);
      return substance ? [[product, substance] as const] : [];
    }),
  );
