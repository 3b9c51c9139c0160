import { bubbleAtT, type FluidId, fluidInfo, type Mixture, mixture } from "../../fluids/index.ts";
import { fitCubics, simplexLattice } from "../../inference/index.ts";
import { type Family, MOST_ETHANE } from "./families.ts";

/** Molar gas constant, J/(mol K). */
export const R = 8.31446261815324;

/** Temperatures, K, at which the equations are solved; between them ln h is a cubic in 1/T. */
export const NODES = [236, 263, 294, 327] as const;
/** Compositions of the fit: multiples of this part of the whole. */
const STEPS: Readonly<Record<number, number>> = { 2: 8, 3: 6, 4: 5, 5: 4 };
/** Parts are never quite absent: a missing one would have no h. */
const INSET = 0.002;

/** Coefficients of a family of several parts at each of {@link NODES}: up to a hundred milliseconds of work. */
export function solveTables(family: Family): readonly Float64Array[] {
  const mix = mixture(family.fluids);
  const points = pointsOf(family);
  return NODES.map((T) => tableAt(mix, points, T, family));
}

/** Mole fractions of air dissolved in the liquid that the fit covers: the last stands under some 60 bar. */
const AIR_IN_LIQUID = [0.0002, 0.003, 0.006, 0.01, 0.02, 0.03, 0.04];

function pointsOf({ fluids, center }: Family): readonly (readonly number[])[] {
  if (center) return [molesOf(fluids, center)];
  if (fluids.includes("R728")) return AIR_IN_LIQUID.map((air) => [1 - air, air]);
  return simplexLattice(fluids.length, STEPS[fluids.length] ?? 4, INSET).map((x) =>
    withoutMuchEthane(fluids, x),
  );
}

function tableAt(
  mix: Mixture,
  points: readonly (readonly number[])[],
  T: number,
  { id, center }: Family,
): Float64Array {
  const found = points.flatMap((x) => {
    const bubble = boilingPoint(mix, x, T);
    return bubble ? [{ x, bubble }] : [];
  });
  const first = found[0];
  if (center && first) return Float64Array.from(first.bubble);
  const values = (first?.bubble ?? []).map((_, q) => found.map(({ bubble }) => bubble[q] ?? 0));
  const fit = fitCubics(
    found.map(({ x }) => x),
    values,
  );
  if (!fit) throw new RangeError(`${id} has too few boiling points at ${T} K`);
  return fit;
}

/** The quantities of {@link Boiling} at one composition; undefined where it does not boil. */
function boilingPoint(mix: Mixture, x: readonly number[], T: number): number[] | undefined {
  const bubble = bubbleAtT(mix, x, T);
  if (bubble.kind !== "state") return undefined;
  const liquid = bubble.phases.find(({ kind }) => kind === "liquid");
  const vapour = bubble.phases.find(({ kind }) => kind === "vapour");
  if (!liquid || !vapour) return undefined;
  const h = x.map((xi, i) => Math.log(((vapour.x[i] ?? 0) * bubble.p) / xi));
  const Z = bubble.p / (vapour.rho * R * T);
  return [...h, -Math.log(liquid.rho), Math.log(Z)];
}

function withoutMuchEthane(fluids: readonly FluidId[], x: readonly number[]): number[] {
  const at = fluids.indexOf("R170");
  if (at < 0) return [...x];
  const scaled = x.map((share, i) => (i === at ? share * (MOST_ETHANE + 0.1) : share));
  const sum = scaled.reduce((total, share) => total + share, 0);
  return scaled.map((share) => share / sum);
}

function molesOf(fluids: readonly FluidId[], masses: readonly number[]): number[] {
  const moles = fluids.map((id, i) => (masses[i] ?? 0) / fluidInfo(id).M);
  const sum = moles.reduce((total, each) => total + each, 0);
  return moles.map((each) => each / sum);
}
