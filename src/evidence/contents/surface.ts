import {
  bubbleAtT,
  fluid as fluidOf,
  type FluidId,
  fluidInfo,
  type Mixture,
  mixture,
  saturationAtT,
} from "../../fluids/index.ts";
import { cubicTerms, fitCubics, simplexLattice } from "../../inference/index.ts";
import { type Family, MOST_ETHANE } from "./families.ts";

/**
 * Boiling of a family at one temperature, over all its compositions: of each part the pressure h that it would add
 * per mole fraction of liquid (y·p/x), the molar volume of the liquid and the compressibility of its vapour.
 */
export interface Boiling {
  readonly parts: number;
  /** 1 where the properties are fixed, else the terms of a cubic. */
  readonly terms: number;
  /** ln h of each part, ln of the liquid's molar volume, ln of the vapour's compressibility at the bubble point. */
  readonly coefficients: Float64Array;
  readonly T: number;
}

/** Molar gas constant, J/(mol K). */
export const R = 8.31446261815324;

/** Temperatures, K, at which the equations are solved; between them ln h is a cubic in 1/T. */
const NODES = [236, 263, 294, 327] as const;
/** Range of readings that the nodes carry, K. */
export const CONTENTS_T = { from: 230, to: 340 } as const;

/** Compositions of the fit: multiples of this part of the whole. */
const STEPS: Readonly<Record<number, number>> = { 2: 8, 3: 6, 4: 5, 5: 4 };
/** Parts are never quite absent: a missing one would have no h. */
const INSET = 0.002;

const nodeTables = new Map<string, readonly Float64Array[]>();

/**
 * Boiling of a family at a temperature, K. The first request for a family solves its equations of state (a few to a
 * hundred milliseconds) and keeps the result.
 *
 * @returns undefined for families without a boiling line.
 */
export function boilingAt(family: Family, T: number): Boiling | undefined {
  const { fluids } = family;
  const [first] = fluids;
  if (first === undefined) return undefined;
  if (fluids.length === 1) return pureBoiling(first, T);
  const terms = family.center ? 1 : cubicTerms(fluids.length);
  const tables = tablesOf(family);
  const coefficients = new Float64Array(tables[0]?.length ?? 0);
  const weights = lagrange(T);
  tables.forEach((table, k) => {
    const weight = weights[k] ?? 0;
    for (let i = 0; i < coefficients.length; i++) {
      coefficients[i] = (coefficients[i] ?? 0) + weight * (table[i] ?? 0);
    }
  });
  return { parts: fluids.length, terms, coefficients, T };
}

function lagrange(T: number): number[] {
  return NODES.map((node, k) =>
    NODES.reduce(
      (product, other, j) =>
        j === k ? product : (product * (1 / T - 1 / other)) / (1 / node - 1 / other),
      1,
    ),
  );
}

/** Near its critical point, and above it, a fluid is carried on from here as if it still boiled. */
const BELOW_CRITICAL = 0.985;

function pureBoiling(id: FluidId, T: number): Boiling {
  const fluid = fluidOf(id);
  const top = BELOW_CRITICAL * fluid.critical.T;
  const at = Math.max(Math.min(T, top), fluid.info.Tmin);
  const sat = saturationAtT(fluid, at);
  if (sat.kind !== "saturated") throw new RangeError(`${id} does not boil at ${at} K`);
  let lnP = Math.log(sat.p);
  if (T > top) {
    const below = saturationAtT(fluid, top - 2);
    const slope =
      below.kind === "saturated" ? (lnP - Math.log(below.p)) / (1 / top - 1 / (top - 2)) : 0;
    lnP += slope * (1 / T - 1 / top);
  }
  const Z = sat.p / (sat.rhoV * R * at);
  return {
    parts: 1,
    terms: 1,
    coefficients: Float64Array.of(lnP, -Math.log(sat.rhoL), Math.log(Z)),
    T,
  };
}

function tablesOf(family: Family): readonly Float64Array[] {
  const known = nodeTables.get(family.id);
  if (known) return known;
  const mix = mixture(family.fluids);
  const points = pointsOf(family);
  const tables = NODES.map((T) => tableAt(mix, points, T, family));
  nodeTables.set(family.id, tables);
  return tables;
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
