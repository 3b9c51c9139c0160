import { saturatedPhases, saturationAtT } from "../../fluids/index.ts";
import { blendBubble } from "../bulk/blend-states.ts";
import { type BulkFailure, ofPure } from "../bulk/bulk-failure.ts";
import { type Material, materialOf } from "../bulk/material.ts";
import type { Part } from "../substances/composition.ts";
import { equilibriumFlux, type Stagnation } from "./flashing-flux.ts";
import type { HoleFlow } from "./release.ts";

/** A hole in a vessel that holds liquid and vapour at one temperature. */
export interface Hole {
  /** K, of the vessel. */
  readonly T: number;
  /** m2 */
  readonly area: number;
  /** Flow over that without contraction and friction, 0 to 1. */
  readonly dischargeCoefficient: number;
  /** What leaves: the liquid below its surface or the vapour above it. */
  readonly phase: "liquid" | "vapour";
  /** For liquid: without flashing, the most there can be, or flashing in equilibrium. */
  readonly discharge: "bernoulli" | "flashing";
  /** Pa, of the air outside. */
  readonly outside: number;
  /** Internal volume, m3; where it is not known the whole mass leaves at the full rate. */
  readonly vesselVolume?: number | undefined;
}

/** The flow, and the pressure behind it, Pa. */
export interface FoundHoleFlow {
  readonly kind: "flow";
  readonly flow: HoleFlow;
  readonly p: number;
}

interface PhaseAtRest extends Stagnation {
  readonly rho: number;
}
interface AtRest {
  readonly kind: "at-rest";
  readonly p: number;
  readonly liquid: PhaseAtRest;
  readonly vapour: PhaseAtRest;
  /** Of a blend's vapour: richer in its light parts. */
  readonly vapourMaterial: Material;
}

/** Liquid with its vapour at a temperature: of a blend at its bubble point, where its pressure is highest. */
function atRest(material: Material, T: number): AtRest | BulkFailure {
  if (material.kind === "blend") {
    const bubble = blendBubble(material, "T", T);
    if (bubble.kind === "failed") return bubble;
    const { p, phases } = bubble;
    const [liquid, vapour = liquid] = phases;
    if (!liquid || !vapour) throw new RangeError("a bulk has a phase");
    const vapourMaterial = materialOf(whole(vapour.moles));
    return {
      kind: "at-rest",
      p,
      liquid: { ...liquid, p },
      vapour: { ...vapour, p },
      vapourMaterial,
    };
  }
  const { fluid, M } = material;
  const saturation = saturationAtT(fluid, T);
  if (saturation.kind !== "saturated") return ofPure({ ...saturation, kind: "failed" }, M);
  const phases = saturatedPhases(fluid, saturation);
  const of = ({ rho, h, s }: (typeof phases)["liquid"]): PhaseAtRest => ({
    p: saturation.p,
    h: h / M,
    s: s / M,
    rho: rho * M,
  });
  return {
    kind: "at-rest",
    p: saturation.p,
    liquid: of(phases.liquid),
    vapour: of(phases.vapour),
    vapourMaterial: material,
  };
}

/** Fractions whose sum is 1 but for the rounding of a solver. */
function whole(parts: readonly Part[]): readonly Part[] {
  const sum = parts.reduce((total, { fraction }) => total + fraction, 0);
  return parts.map(({ fluid, fraction }) => ({ fluid, fraction: fraction / sum }));
}

const NOT_CONVERGED = (p: number): BulkFailure => ({
  kind: "failed",
  reason: "not-converged",
  quantity: "s",
  numbers: { p },
});

/** A vessel no fuller than this above the air's pressure lets out nothing to speak of. */
const HARDLY_ABOVE = 1.001;

/**
 * What a hole lets out, kg/s, and how much vapour follows when the liquid is gone.
 *
 * The vessel keeps its temperature and, while there is liquid, its pressure: in truth both fall, so this is the most.
 * Liquid by Bernoulli, Cd·A·√(2ρ(p0 − p1)), an upper bound, or flashing in equilibrium; vapour as a real gas, choked.
 *
 * @returns the flow, or why the material has no liquid at this temperature.
 *
 * Checked: hole-flow.test.ts
 */
export function holeFlow(material: Material, hole: Hole): FoundHoleFlow | BulkFailure {
  const rest = atRest(material, hole.T);
  if (rest.kind === "failed") return rest;
  const { p, liquid, vapour, vapourMaterial } = rest;
  const { outside, vesselVolume = 0 } = hole;
  if (p < HARDLY_ABOVE * outside) {
    return { kind: "failed", reason: "below-minimum", quantity: "p", numbers: { p, outside } };
  }
  const throat = hole.dischargeCoefficient * hole.area;
  const vapourFlux = equilibriumFlux(vapourMaterial, vapour, outside);
  const liquidFlux =
    hole.discharge === "bernoulli"
      ? Math.sqrt(2 * liquid.rho * (p - outside))
      : equilibriumFlux(material, liquid, outside);
  if (vapourFlux === undefined || liquidFlux === undefined) return NOT_CONVERGED(p);
  const vapourRate = throat * vapourFlux;
  const vapourFull = vesselVolume * vapour.rho;
  return {
    kind: "flow",
    p,
    flow: {
      rate: hole.phase === "liquid" ? throat * liquidFlux : vapourRate,
      vapourRate,
      vapourFull,
      stays: (vapourFull * outside) / p,
    },
  };
}
