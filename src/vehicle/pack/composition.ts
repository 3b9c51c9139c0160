import { type FluidId, fluidInfo } from "../../fluids/index.ts";

/** What is in the system: fluids and their mass fractions, sum 1. */
export interface Composition {
  readonly ids: readonly FluidId[];
  readonly fractions: readonly number[];
}

/** A single fluid. */
export const pureComposition = (id: FluidId): Composition => ({ ids: [id], fractions: [1] });

/** Key under which equal compositions meet. */
export const compositionKey = ({ ids, fractions }: Composition): string =>
  ids.map((id, k) => `${id} ${fractions[k].toPrecision(12)}`).join("+");

/**
 * Mole fractions and the molar mass, kg/mol, of mass fractions.
 *
 * @throws RangeError if lengths differ or the fractions do not sum to 1: the caller's bug.
 */
export function molar({ ids, fractions }: Composition): {
  readonly z: readonly number[];
  readonly M: number;
} {
  const sum = fractions.reduce((total, w) => total + w, 0);
  if (ids.length !== fractions.length || !(Math.abs(sum - 1) < 1e-9)) {
    throw new RangeError(`mass fractions ${fractions.join(", ")} of ${ids.join(", ")}`);
  }
  const moles = ids.map((id, k) => fractions[k] / fluidInfo(id).M);
  const total = moles.reduce((all, n) => all + n, 0);
  return { z: moles.map((n) => n / total), M: 1 / total };
}
