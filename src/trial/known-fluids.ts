import { fluidIds, fluidInfo, namedBlends } from "../fluids/index.ts";

export interface KnownFluid {
  /** What the log takes as a fluid. */
  readonly id: string;
  /** Chemical name, in small letters. */
  readonly name: string;
}

/** Every pure fluid with an equation here: what a label, a can or a vessel may be said to hold. */
export const knownFluids = (): readonly KnownFluid[] =>
  fluidIds.map((id) => ({ id, name: fluidInfo(id).name }));

/** Every named blend: what a can or a label may be said to hold, beside the pure fluids. */
export const knownBlends = (): readonly string[] => namedBlends.map(({ name }) => name);
