import type { FluidId } from "../../fluids/index.ts";
import { type Composition, pureComposition } from "../../vehicle/index.ts";

/** Fluids met in the place of others in vehicles (facts page on identity; the choice is judgement). */
const pures: readonly FluidId[] = ["R134a", "R1234yf", "R152a", "R12"];
const hydrocarbons: Composition = { ids: ["R290", "R600a"], fractions: [0.6, 0.4] };
/** Found mixed into a charge, with a mass fraction that is worth finding. */
const mixed: readonly (readonly [FluidId, number])[] = [
  ["R22", 0.3],
  ["R290", 0.15],
];

/** A few representatives of what may be inside instead, none of them the expected one. */
export function substitutesFor({ ids, fractions }: Composition): readonly Composition[] {
  const [only] = ids;
  const pure = ids.length === 1 ? only : undefined;
  const others = pures.filter((id) => id !== pure).map(pureComposition);
  const contaminated = mixed
    .filter(([id]) => !ids.includes(id))
    .map(([id, share]) => ({
      ids: [...ids, id],
      fractions: [...fractions.map((fraction) => (1 - share) * fraction), share],
    }));
  const hasHydrocarbon = ids.includes("R290") || ids.includes("R600a");
  return [...others, ...(hasHydrocarbon ? [] : [hydrocarbons]), ...contaminated];
}
