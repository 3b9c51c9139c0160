import { findFamily, hazardsOfParts, STILL_PROBABLE } from "../../evidence/index.ts";
import type { FluidId } from "../../fluids/index.ts";
import { flammabilityOf, intervalOf, substanceFacts, usable } from "../../service/index.ts";
import { type Harm, harms, mayBurn, type Treatment, unweighed } from "../stages/treatment.ts";
import type { ProductView, TrialView } from "../view.ts";
import type { KnownSubstance } from "./claims/context.ts";
import { testedOtherwise } from "./claims/sample-tests.ts";
import { contentsOf } from "./contents.ts";
import { type Identification, identifiedSubstance } from "./identified.ts";

type Weighed = ReadonlyMap<string, Identification>;

/**
 * What each can is handled as, by product. A label is a claim: until readings bear a content out, the can is the
 * worst of all that is still probable; what that is, the weighing says (docs/models/contents.md, Hazards).
 */
export const treatments = (view: TrialView, weighed: Weighed): ReadonlyMap<string, Treatment> =>
  new Map(view.products.map((one) => [one.id, treatmentOf(view, one, weighed.get(one.id))]));

export function treatmentOf(
  view: TrialView,
  product: ProductView,
  found: Identification | undefined,
): Treatment {
  if (found) return ofWeighing(view, product, found);
  if (testedOtherwise(view, product)) return { proof: "test", harms };
  const read = contentsOf(view, product.id).items.some(
    ({ evidence: { kind } }) => kind !== "label",
  );
  return read ? { proof: "unweighed", harms } : unweighed(product);
}

function ofWeighing(view: TrialView, product: ProductView, found: Identification): Treatment {
  if (found.verdict === "none-explains") return { proof: "unexplained", harms };
  const settled = identifiedSubstance(found);
  // A mark or a test that speaks of flame is not outweighed by what may still be wrong.
  const flame = product.flammableMark || (!settled && testedOtherwise(view, product));
  const still = found.hazards.map(({ kind }) => kind);
  return {
    ...(settled ? { proof: "identified", own: ownHarms(settled) } : { proof: "undecided" }),
    harms: harms.filter((harm) => still.includes(harm) || (flame && harm === "burns")),
  };
}

/** Lowest limit by mass among vehicle refrigerants, with R600a: ASHRAE 34 table 4-1. */
const WORST = "R290";

/**
 * The fluid that stands for a content that is not proven: of all that it may still hold, what burns at the lowest
 * concentration; where nothing burns, what lungs bear least.
 */
export function worstOf(treatment: Treatment, found: Identification | undefined): FluidId {
  if (!found || treatment.harms.includes("unknown")) return WORST;
  if (mayBurn(treatment)) {
    const burning = found.hazards.find(({ kind }) => kind === "burns")?.families ?? [];
    return lowest(fluidsOf(burning), flameLimit) ?? WORST;
  }
  const probable = found.families.filter(({ probability }) => probability >= STILL_PROBABLE);
  return lowest(fluidsOf(probable.map(({ id }) => id)), lungLimit) ?? WORST;
}

const fluidsOf = (ids: readonly string[]): readonly FluidId[] =>
  ids.flatMap((id) => findFamily(id)?.fluids ?? []);

function lowest(
  fluids: readonly FluidId[],
  limit: (fluid: FluidId) => number | undefined,
): FluidId | undefined {
  // The usual stand-in first: of equal limits it is the one that people know.
  const sorted = [...new Set(fluids)].sort((a, b) => Number(b === WORST) - Number(a === WORST));
  return sorted
    .map((fluid) => ({ fluid, at: limit(fluid) ?? Infinity }))
    .reduce<{ fluid?: FluidId; at: number }>((best, each) => (each.at < best.at ? each : best), {
      at: Infinity,
    }).fluid;
}

/** kg/m³ in air from which it burns. */
function flameLimit(fluid: FluidId): number | undefined {
  const rated = flammabilityOf([{ fluid, fraction: 1 }]);
  return rated.kind === "limits" ? rated.limits.lowest.mass : undefined;
}

/** kg/m³ that occupied rooms may hold. */
function lungLimit(fluid: FluidId): number | undefined {
  const limit = usable(substanceFacts(fluid).rcl?.mass);
  return limit && intervalOf(limit.value).from;
}

/** How an identified content hurts by itself: that needs no “not ruled out”. */
function ownHarms({ mass, named }: KnownSubstance): readonly Harm[] {
  const parts = mass.map(({ fluid, fraction }) => ({ fluid, to: fraction }));
  return hazardsOfParts(parts, named?.blend);
}
