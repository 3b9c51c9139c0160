import { statePH, statePS } from "../../fluids/index.ts";
import { blendAtPH, blendAtPS } from "./blend-states.ts";
import type { Material } from "./material.ts";

/** A state by its pressure and one caloric figure. K, kg/m3, J/kg. */
export interface CaloricState {
  readonly T: number;
  readonly rho: number;
  readonly h: number;
}

/**
 * State of a material at a pressure and a specific entropy or enthalpy; `undefined` where the equations have none.
 *
 * @param p     Pa
 * @param value J/(kg K) or J/kg
 */
export function caloricState(
  material: Material,
  p: number,
  quantity: "s" | "h",
  value: number,
): CaloricState | undefined {
  if (material.kind === "blend") {
    const bulk = (quantity === "s" ? blendAtPS : blendAtPH)(material, p, value);
    return bulk.kind === "bulk" ? bulk : undefined;
  }
  const { fluid, M } = material;
  const state = (quantity === "s" ? statePS : statePH)(fluid, p, value * M);
  return state.kind === "state" ? { T: state.T, rho: state.rho * M, h: state.h / M } : undefined;
}
