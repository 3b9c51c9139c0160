import { z } from "zod";
import data from "../../data/facts/known-fluids.json";

const names = z
  .object({
    schema: z.literal(1),
    fluids: z.record(z.string(), z.string()),
    blends: z.array(z.string()),
  })
  .parse(data);

export interface KnownFluid {
  /** What the log takes as a fluid. */
  readonly id: string;
  /** Chemical name, in small letters. */
  readonly name: string;
}

/**
 * Every pure fluid with an equation here: what a label, a can or a vessel may be said to hold. Read from
 * a list of names, because a screen that only offers them must not load the equations.
 */
export const knownFluids = (): readonly KnownFluid[] =>
  Object.entries(names.fluids).map(([id, name]) => ({ id, name }));

/** Every named blend: what a can or a label may be said to hold, beside the pure fluids. */
export const knownBlends = (): readonly string[] => names.blends;
