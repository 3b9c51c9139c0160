import {
  bubbleAtP,
  bubbleAtT,
  dewAtP,
  dewAtT,
  type Mixture,
  type MixOutcome,
  mixStatePH,
  mixStatePQ,
  mixStatePS,
  mixStateTQ,
} from "../../fluids/index.ts";
import { findRoot } from "../../numerics/index.ts";
import { type BulkOutcome, mixtureBulk } from "./bulk.ts";
import type { Material } from "./material.ts";

export type BlendMaterial = Material & { readonly kind: "blend" };

/** Bubble point, where the liquid has the blend's composition, at a temperature, K, or pressure, Pa. */
export const blendBubble = (
  blend: BlendMaterial,
  quantity: "T" | "p",
  value: number,
): BulkOutcome => saturated(blend, quantity === "T" ? bubbleAtT : bubbleAtP, value);

/** Dew point, where the vapour has the blend's composition; see {@link blendBubble}. */
export const blendDew = (blend: BlendMaterial, quantity: "T" | "p", value: number): BulkOutcome =>
  saturated(blend, quantity === "T" ? dewAtT : dewAtP, value);

type Solver = (mix: Mixture, z: readonly number[], first: number, second: number) => MixOutcome;

function saturated(
  blend: BlendMaterial,
  solve: (mix: Mixture, z: readonly number[], value: number) => MixOutcome,
  value: number,
): BulkOutcome {
  return mixtureBulk(blend, solve(blend.mix, blend.z, value));
}

/** State of a blend at a pressure, Pa, and enthalpy, J/kg. */
export const blendAtPH = (blend: BlendMaterial, p: number, h: number): BulkOutcome =>
  mixtureBulk(blend, mixStatePH(blend.mix, blend.z, p, h * blend.M));

/** State of a blend at a pressure, Pa, and entropy, J/(kg K). */
export const blendAtPS = (blend: BlendMaterial, p: number, s: number): BulkOutcome =>
  mixtureBulk(blend, mixStatePS(blend.mix, blend.z, p, s * blend.M));

/** Two phases at a temperature, K, and vapour fraction by mass. */
export const blendAtTQuality = (blend: BlendMaterial, T: number, quality: number): BulkOutcome =>
  atQuality(blend, mixStateTQ, T, quality);

/** Two phases at a pressure, Pa, and vapour fraction by mass. */
export const blendAtPQuality = (blend: BlendMaterial, p: number, quality: number): BulkOutcome =>
  atQuality(blend, mixStatePQ, p, quality);

/** Of a fraction; finer than any use of it. */
const FRACTION_WIDTH = 1e-13;

/**
 * The mixture's solvers want the vapour fraction by mole; that by mass grows with it from 0 to 1, so one root is
 * enough.
 */
function atQuality(
  blend: BlendMaterial,
  solve: Solver,
  value: number,
  quality: number,
): BulkOutcome {
  const at = (beta: number) => mixtureBulk(blend, solve(blend.mix, blend.z, value, beta));
  if (quality <= 0 || quality >= 1) return at(Math.min(1, Math.max(0, quality)));
  let failed: BulkOutcome | undefined;
  const off = (beta: number): number => {
    const bulk = at(beta);
    if (bulk.kind === "bulk") return bulk.quality - quality;
    failed = bulk;
    // Steers the search to an end; what it finds is not used.
    return Infinity;
  };
  const root = findRoot(off, 0, 1, { absoluteWidth: FRACTION_WIDTH });
  if (failed) return failed;
  const beta = root.kind === "root" ? root.x : root.at;
  return at(beta);
}
