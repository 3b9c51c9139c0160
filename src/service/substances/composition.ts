import { type FluidId, fluidInfo } from "../../fluids/index.ts";

/** A fluid and its fraction in a mixture, by mass or by mole as the place says. */
export interface Part {
  readonly fluid: FluidId;
  readonly fraction: number;
}

/** Of a sum of fractions, for rounding. */
const ROUNDING = 1e-9;

/**
 * Checks that fractions make a whole.
 * @throws RangeError for none, for a fluid given twice, a fraction outside 0 to 1 or a sum that is not 1: the caller's bug.
 */
function checked(parts: readonly Part[]): readonly Part[] {
  const sum = parts.reduce((total, { fraction }) => total + fraction, 0);
  const fluids = new Set(parts.map(({ fluid }) => fluid));
  if (!(Math.abs(sum - 1) <= ROUNDING)) throw new RangeError(`fractions sum to ${String(sum)}`);
  if (fluids.size !== parts.length) throw new RangeError("a fluid is given twice");
  if (parts.some(({ fraction }) => !(fraction >= 0))) throw new RangeError("negative fraction");
  return parts;
}

/** Mass fractions as they are, checked. */
export const massParts = checked;

/** Mean molar mass, kg/mol, of mole fractions. */
export const molarMass = (moles: readonly Part[]): number =>
  checked(moles).reduce((sum, { fluid, fraction }) => sum + fraction * fluidInfo(fluid).M, 0);

/** Mole fractions to mass fractions. */
export function toMass(moles: readonly Part[]): readonly Part[] {
  const M = molarMass(moles);
  return moles.map(({ fluid, fraction }) => ({
    fluid,
    fraction: (fraction * fluidInfo(fluid).M) / M,
  }));
}

/** Mass fractions to mole fractions. */
export function toMoles(masses: readonly Part[]): readonly Part[] {
  const amounts = checked(masses).map(({ fluid, fraction }) => fraction / fluidInfo(fluid).M);
  const total = amounts.reduce((sum, amount) => sum + amount, 0);
  return masses.map(({ fluid }, i) => ({ fluid, fraction: (amounts[i] ?? 0) / total }));
}
