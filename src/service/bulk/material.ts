import {
  type CombiningRule,
  fluid as fluidOf,
  type Mixture,
  mixture,
  type PureFluid,
} from "../../fluids/index.ts";
import { molarMass, type Part, toMass } from "../substances/composition.ts";

/** A fluid or blend of fixed composition, ready to compute. */
export type Material =
  | {
      readonly kind: "pure";
      readonly fluid: PureFluid;
      readonly M: number;
      readonly moles: readonly Part[];
    }
  | {
      readonly kind: "blend";
      readonly mix: Mixture;
      /** Mole fractions in the order of the mixture's fluids. */
      readonly z: readonly number[];
      /** Mean molar mass, kg/mol. */
      readonly M: number;
      readonly moles: readonly Part[];
    };

/**
 * A material of some mole fractions.
 *
 * @param moles Mole fractions, sum 1.
 * @param rule  How pairs without published parameters are estimated.
 * @throws      RangeError for fractions that make no whole: the caller's bug.
 */
export function materialOf(moles: readonly Part[], rule: CombiningRule = "linear"): Material {
  const M = molarMass(moles);
  const [first, ...rest] = moles;
  if (first && rest.length === 0) return { kind: "pure", fluid: fluidOf(first.fluid), M, moles };
  const mix = mixture(
    moles.map(({ fluid }) => fluid),
    rule,
  );
  return { kind: "blend", mix, z: moles.map(({ fraction }) => fraction), M, moles };
}

/** Names fractions by their fluids, in the order of the material. */
export const namedFractions = (
  { moles }: Material,
  fractions: readonly number[],
): readonly Part[] => moles.map(({ fluid }, i) => ({ fluid, fraction: fractions[i] ?? 0 }));

/** Mole fractions of a phase as mass fractions; they may miss 1 by the rounding of a solver. */
export function massOf(moles: readonly Part[]): readonly Part[] {
  const sum = moles.reduce((total, { fraction }) => total + fraction, 0);
  return toMass(moles.map(({ fluid, fraction }) => ({ fluid, fraction: fraction / sum })));
}
