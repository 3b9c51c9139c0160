import { toMass } from "../substances/composition.ts";
import type { Part } from "../substances/composition.ts";
import { blendBubble, blendDew } from "../bulk/blend-states.ts";
import type { BulkFailure } from "../bulk/bulk-failure.ts";
import type { Material } from "../bulk/material.ts";
import { chargingNumber } from "./charging-facts.ts";

/** How the phase matters to what arrives: compositions by mass; K. */
export interface PhaseAdvice {
  readonly kind: "advice";
  /** `liquid`: vapour from the top is another mixture. `either`: both phases are the same. */
  readonly take: "liquid" | "either";
  /** Dew less bubble temperature at the bubble pressure of T. */
  readonly glide: number;
  /** What the first vapour is, where it differs. */
  readonly firstVapour?: readonly Part[];
  readonly asCharged: readonly Part[];
}

/**
 * Whether a can is to be emptied as liquid: one with glide must be, because its vapour is another mixture.
 *
 * @param T Temperature of the can, K.
 * Source: ASHRAE 34 and blend practice (from memory); vapour composition from the mixture's equation
 */
export function phaseAdvice(material: Material, T: number): PhaseAdvice | BulkFailure {
  const asCharged = toMass(material.moles);
  if (material.kind === "pure") return { kind: "advice", take: "either", glide: 0, asCharged };
  const bubble = blendBubble(material, "T", T);
  if (bubble.kind === "failed") return bubble;
  const dew = blendDew(material, "p", bubble.p);
  if (dew.kind === "failed") return dew;
  const glide = dew.T - bubble.T;
  const firstVapour = bubble.phases.find(({ kind }) => kind === "vapour")?.mass;
  const take = glide > chargingNumber("glide").value ? "liquid" : "either";
  return {
    kind: "advice",
    take,
    glide,
    asCharged,
    ...(take === "liquid" && firstVapour && { firstVapour }),
  };
}
