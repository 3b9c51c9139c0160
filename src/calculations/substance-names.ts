import { fluidIds } from "../fluids/index.ts";
import { ratedBlends } from "../service/index.ts";

/** Every pure fluid that a question may name. */
export const fluidNames: readonly string[] = fluidIds;

/** Every blend with a name, its parts and what it is met as. */
export const blendNames: readonly {
  readonly name: string;
  readonly parts: readonly { readonly fluid: string; readonly fraction: number }[];
  readonly note: string;
}[] = ratedBlends.map(({ blend, parts, note }) => ({ name: blend, parts, note }));
