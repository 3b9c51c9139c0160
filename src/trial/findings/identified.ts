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
  readonly hazards: readonly {
    readonly kind: "burns" | "toxic" | "attacks-aluminium" | "unknown";
    readonly probability: number;
  }[];
}

/** Mass fractions below are no part of what stands for the content. */
const COUNTS = 0.005;

/**
 * The content that an identification settled, as other findings take it: a fluid or blend by its name, a mixture by
 * the means of its parts.
 *
 * @returns undefined while no family holds 95 %.
 */
export function identifiedSubstance({
  verdict,
  families,
  compositions,
}: Identification): KnownSubstance | undefined {
  const [leader] = families;
  if (verdict !== "named" || !leader) return undefined;
  const named = knownSubstance(leader.id);
  if (named) return named;
  const parts = (compositions.find(({ family }) => family === leader.id)?.parts ?? []).flatMap(
    ({ fluid, mean }) => (isFluidId(fluid) && mean > COUNTS ? [{ fluid, fraction: mean }] : []),
  );
  const sum = parts.reduce((all, { fraction }) => all + fraction, 0);
  if (!(sum > 0)) return undefined;
  const shares = parts.map(({ fluid, fraction }) => ({ fluid, fraction: fraction / sum }));
  return substanceOfMoles(leader.title, toMoles(shares));
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
