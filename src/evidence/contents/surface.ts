import { z } from "zod";
import solved from "../../../data/contents/boiling.json";
import { fluid as fluidOf, type FluidId, saturationAtT } from "../../fluids/index.ts";
import { cubicTerms } from "../../inference/index.ts";
import { NODES, R, solveTables } from "./boiling-tables.ts";
import type { Family } from "./families.ts";

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

/** Range of readings that the nodes carry, K. */
export const CONTENTS_T = { from: 230, to: 340 } as const;

const nodeTables = new Map<string, readonly Float64Array[]>();

/**
 * Boiling of a family at a temperature, K. What the equations of state give stands in a file: solving them takes
 * a third of a second for all families, which the first answer of a process had to wait for.
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

const schema = z.strictObject({
  schema: z.literal(1),
  about: z.string(),
  source: z.string(),
  tables: z.record(z.string(), z.array(z.array(z.number())).length(NODES.length)),
});
let file: z.infer<typeof schema>["tables"] | undefined;

function tablesOf(family: Family): readonly Float64Array[] {
  const known = nodeTables.get(family.id);
  if (known) return known;
  file ??= schema.parse(solved).tables;
  const tables = file[family.id]?.map((table) => Float64Array.from(table)) ?? solveTables(family);
  nodeTables.set(family.id, tables);
  return tables;
}
