import { saturatedPhases, saturationAtP, saturationAtT } from "../../fluids/index.ts";
import { blendBubble, blendDew } from "./blend-states.ts";
import type { Bulk } from "./bulk.ts";
import type { Material } from "./material.ts";

/** Boiling liquid and condensing vapour of the whole composition. K, Pa, kg/m3, J/kg. */
export interface SaturatedEnds {
  readonly bubble: SaturatedEnd;
  readonly dew: SaturatedEnd;
}
interface SaturatedEnd {
  readonly T: number;
  readonly p: number;
  readonly rho: number;
  readonly h: number;
}

/**
 * Both ends of boiling at one pressure; of a temperature, at the bubble point's pressure. `undefined` where the
 * material has none.
 */
export function saturatedEnds(
  material: Material,
  quantity: "T" | "p",
  value: number,
): SaturatedEnds | undefined {
  if (material.kind === "pure") return pureEnds(material, quantity, value);
  const bubble = blendBubble(material, quantity, value);
  if (bubble.kind === "failed") return undefined;
  const dew = blendDew(material, "p", bubble.p);
  if (dew.kind === "failed") return undefined;
  return { bubble: endOf(bubble, "liquid"), dew: endOf(dew, "vapour") };
}

function endOf({ T, p, phases }: Bulk, kind: "liquid" | "vapour"): SaturatedEnd {
  const phase = phases.find((one) => one.kind === kind) ?? phases[0];
  if (!phase) throw new RangeError("a bulk has a phase");
  return { T, p, rho: phase.rho, h: phase.h };
}

function pureEnds(
  { fluid, M }: Material & { readonly kind: "pure" },
  quantity: "T" | "p",
  value: number,
): SaturatedEnds | undefined {
  const saturation = quantity === "T" ? saturationAtT(fluid, value) : saturationAtP(fluid, value);
  if (saturation.kind !== "saturated") return undefined;
  const { T, p } = saturation;
  const { liquid, vapour } = saturatedPhases(fluid, saturation);
  const end = ({ rho, h }: typeof liquid): SaturatedEnd => ({ T, p, rho: rho * M, h: h / M });
  return { bubble: end(liquid), dew: end(vapour) };
}
