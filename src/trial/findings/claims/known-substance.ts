import { isFluidId } from "../../../fluids/index.ts";
import {
  materialOf,
  type NamedBlend,
  type Part,
  ratedBlends,
  toMass,
  toMoles,
} from "../../../service/index.ts";
import type { KnownSubstance } from "./context.ts";

/** A refrigerant of some mole fractions. */
export const substanceOfMoles = (
  name: string,
  moles: readonly Part[],
  named?: NamedBlend,
): KnownSubstance => ({
  name,
  moles,
  mass: named?.parts ?? toMass(moles),
  named,
  material: materialOf(moles),
});

/** A pure fluid or named blend by the name it has here; `undefined` for any other word. */
export function knownSubstance(name: string | undefined): KnownSubstance | undefined {
  if (name === undefined) return undefined;
  if (isFluidId(name)) return substanceOfMoles(name, [{ fluid: name, fraction: 1 }]);
  const blend = ratedBlends.find((one) => one.blend === name);
  return blend && substanceOfMoles(name, toMoles(blend.parts), blend);
}
