import { claimFindings, type ProductClaims } from "./claims.ts";
import { coolsAnswer, holdsAnswer, safeAnswer } from "./answer/product.ts";
import { restoredAnswer } from "./answer/vehicle.ts";
import type { Answer } from "./answer/view.ts";
import { fairEffects } from "./fair-effects.ts";
import type { FairComparison } from "./fair-comparison.ts";
import { type HazardFinding, hazardFindings } from "./hazards.ts";
import { type Identification, identifiedSubstances } from "./identified.ts";
import type { TrialView } from "../view.ts";

/** What takes longer than a projection, from wherever it was worked out. */
export interface Settled {
  /** Missing while it was not worked out: then nothing rests on it. */
  readonly fair?: FairComparison;
  readonly identified?: ReadonlyMap<string, Identification>;
}

/** Findings that rest on the comparison and the identification, made from them once. */
export interface RestingFindings {
  readonly claims: readonly ProductClaims[];
  readonly hazards: readonly HazardFinding[];
  readonly answers: readonly Answer[];
}

/** Claims, hazards and answers of a trial with all that was settled. Pure. */
export function restingFindings(view: TrialView, settled: Settled): RestingFindings {
  const substances = identifiedSubstances(settled.identified ?? new Map());
  const claims = claimFindings(view, {
    fair: fairEffects(settled.fair),
    identified: substances,
  });
  const hazards = hazardFindings(view, settled.identified);
  return { claims, hazards, answers: answersFrom(view, settled, { claims, hazards }) };
}

/**
 * The four questions: of each product whether it holds what it says, cools as well and is as safe as the label
 * refrigerant; of the vehicle whether it is back as it was. Each with every reason it rests on; what no reading
 * decides is undecided.
 */
export const answersOf = (view: TrialView, settled: Settled = {}): readonly Answer[] =>
  restingFindings(view, settled).answers;

function answersFrom(
  view: TrialView,
  settled: Settled,
  { claims, hazards }: Pick<RestingFindings, "claims" | "hazards">,
): readonly Answer[] {
  const label = hazards.find(({ product }) => product === "label");
  return [
    ...view.products.flatMap((product) => {
      const found = settled.identified?.get(product.id);
      const hazard = hazards.find((one) => one.product === product.id);
      const mine = claims.find((one) => one.product === product.id);
      return [
        holdsAnswer(view, product, { found, claims: mine }),
        coolsAnswer(product, settled.fair),
        safeAnswer(product, { found, hazard, label }),
      ];
    }),
    ...(view.vehicle ? [restoredAnswer(view, settled.fair)] : []),
  ];
}
