import { type FluidId, isFluidId } from "../../fluids/index.ts";
import { type Part, toMoles } from "../../service/index.ts";
import type { Composition } from "../../vehicle/index.ts";
import type { Stage } from "../events.ts";
import type { SubstanceKey } from "../ledger/view.ts";
import { expectedFluid, type Expected } from "../verdict/context.ts";
import type { TrialView } from "../view.ts";

/** Where a finding stands: a stage, and the product's round it belongs to. */
export interface FindingPlace {
  readonly stage: Stage;
  readonly round?: string | undefined;
}

/** What is handled, as far as the log says. */
export interface Handled {
  readonly name: string;
  /** Absent while nobody knows what it is. */
  readonly known?: { readonly mass: readonly Part[]; readonly moles: readonly Part[] };
}

const reading = {
  quantity: "static-low",
  form: "steady",
  typed: { value: 0, unit: "Pa" },
} as const;

function handled({ name, composition }: Expected): Handled {
  const known = composition && partsOf(composition);
  return known ? { name, known } : { name };
}

function partsOf({ ids, fractions }: Composition): Handled["known"] {
  const mass = ids.map((fluid, i) => ({ fluid, fraction: fractions[i] ?? 0 }));
  return { mass, moles: toMoles(mass) };
}

/** What the stage takes out of the vehicle: in Restore the last product, in Recover what was in before. */
export function takenOut(view: TrialView, place: FindingPlace): Handled | undefined {
  const last = view.products.at(-1);
  const at =
    place.stage === "restore" && last
      ? { ...reading, stage: "charge" as const, round: last.id }
      : { ...reading, ...placed(place) };
  const expected = expectedFluid(view, at);
  return expected && handled(expected);
}

/** What the stage puts into the vehicle. */
export function putIn(view: TrialView, place: FindingPlace): Handled | undefined {
  const expected = expectedFluid(view, { ...reading, ...placed(place) });
  return expected && handled(expected);
}

/** What the vehicle's label names. */
export function onLabel(view: TrialView): Handled | undefined {
  const expected = expectedFluid(view, { ...reading, stage: "prove" });
  return expected && handled(expected);
}

const placed = ({ stage, round }: FindingPlace) => ({
  stage,
  ...(round !== undefined && { round }),
});

/** A vessel's content by its key in the ledger. */
export function contentOf(view: TrialView, key: SubstanceKey): Handled | undefined {
  if (key.startsWith("product:")) {
    return putIn(view, { stage: "charge", round: key.slice("product:".length) });
  }
  const fluid = key.slice("fluid:".length);
  if (!key.startsWith("fluid:") || !isFluidId(fluid)) return undefined;
  const whole: readonly Part[] = [{ fluid: fluid satisfies FluidId, fraction: 1 }];
  return { name: fluid, known: { mass: whole, moles: whole } };
}
