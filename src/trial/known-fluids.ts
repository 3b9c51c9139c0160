import { fluidIds, fluidInfo } from "../fluids/index.ts";

export interface KnownFluid {
  /** What the log takes as a fluid. */
  readonly id: string;
  /** Chemical name, in small letters. */
  readonly name: string;
}

/** Every pure fluid with an equation here: what a label, a can or a vessel may be said to hold. */
export const knownFluids = (): readonly KnownFluid[] =>
  fluidIds.map((id) => ({ id, name: fluidInfo(id).name }));
