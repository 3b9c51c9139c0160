import { given } from "../../given.ts";
import { ofType } from "../../plan.ts";
import type { ProductView, TrialView, VesselView } from "../../view.ts";
import type { SampleTest } from "./context.ts";

/** A can that holds a product from the start. */
export const isCanOf = (vessel: VesselView, product: string): boolean =>
  vessel.kind === "can" &&
  vessel.holds?.substance.kind === "product" &&
  vessel.holds.substance.product === product;

/** What identifiers and detectors said in a product's round or of its cans. */
export function testsOf(view: TrialView, product: string): SampleTest[] {
  const standing = view.entries.filter(({ withdrawn }) => !withdrawn);
  const cans = view.vessels.filter((vessel) => isCanOf(vessel, product)).map(({ id }) => id);
  return ofType(standing, "sample-tested")
    .filter(({ body: { vessel, round } }) =>
      vessel !== undefined && vessel !== "vehicle" ? cans.includes(vessel) : round === product,
    )
    .map(({ body: { method, responded, parts } }) => given({ method, responded, parts }));
}

/** Less than this, % by mass, is contamination: practice of identifiers, from memory. */
export const TRACE = 2;

/**
 * Whether a test says that the content may burn, or is not what its label declares, so that nobody may rely on the
 * declaration.
 */
export const testedOtherwise = (view: TrialView, { id, fluid }: ProductView): boolean =>
  testsOf(view, id).some(
    ({ method, responded, parts }) =>
      (method === "combustible-gas-detector" && responded === true) ||
      (parts ?? []).some(
        ({ substance, percent }) => substance !== fluid && substance !== "air" && percent > TRACE,
      ),
  );
