import type { FluidId } from "../../fluids/index.ts";
import { normalisedWeights, weightedQuantile } from "../../inference/index.ts";
import type { JudgedFamily, Posterior } from "./posterior.ts";

/** Mass fraction of one fluid in a family. */
export interface PartInterval {
  readonly fluid: FluidId;
  readonly mean: number;
  /** 95 %. */
  readonly from: number;
  readonly to: number;
}

/** Points of a family with their shares of its weight, all parts together. */
export function pointsOf(judged: JudgedFamily): {
  readonly weights: Float64Array;
  readonly at: readonly { readonly part: number; readonly point: number }[];
} {
  const at = judged.parts.flatMap(({ samples }, part) =>
    Array.from(samples.logWeights, (_, point) => ({ part, point })),
  );
  const logs = judged.parts.flatMap(({ matter, samples }) =>
    Array.from(samples.logWeights, (each) => each + Math.log(matter.cell.weight)),
  );
  return { weights: normalisedWeights(logs), at };
}

/** Puts a family's matter to one of its points. */
export function placeAt(judged: JudgedFamily, part: number, point: number) {
  const { matter, samples } = judged.parts[part] ?? fail();
  const d = samples.dimensions;
  matter.place(samples.points.subarray(point * d, point * d + d));
  return matter;
}

function fail(): never {
  throw new RangeError("a family has no such part");
}

/** Weighted columns of mass fractions, one a fluid. */
interface Columns {
  readonly weights: number[];
  readonly shares: Map<FluidId, number[]>;
}

/** Adds the points of a family, all together with a weight. */
function gather(judged: JudgedFamily, weight: number, { weights, shares }: Columns): void {
  const { fluids } = judged.family;
  const points = pointsOf(judged);
  for (const [k, { part, point }] of points.at.entries()) {
    const own = points.weights[k] ?? 0;
    if (own < LEAST_WEIGHT) continue;
    const masses = placeAt(judged, part, point).masses();
    const row = weights.push(own * weight) - 1;
    for (const [i, fluid] of fluids.entries()) {
      const column = shares.get(fluid) ?? [];
      shares.set(fluid, column);
      column[row] = masses?.share[i] ?? 0;
    }
  }
}

/** Points that carry less move no quantile. */
const LEAST_WEIGHT = 1e-7;
/** Parts that never exceed this are left out. */
const LEAST_SHARE = 0.0005;

function intervalsOf({ weights, shares }: Columns): PartInterval[] {
  const sum = weights.reduce((total, each) => total + each, 0);
  return [...shares]
    .map(([fluid, sparse]): PartInterval => {
      const column = weights.map((_, k) => sparse[k] ?? 0);
      const mean = column.reduce((total, each, k) => total + each * (weights[k] ?? 0), 0) / sum;
      return {
        fluid,
        mean,
        from: weightedQuantile(column, weights, 0.025),
        to: weightedQuantile(column, weights, 0.975),
      };
    })
    .filter(({ to }) => to > LEAST_SHARE)
    .sort((a, b) => b.mean - a.mean);
}

/** Shares by mass with their 95 % intervals, the largest first; a part that is never there is left out. */
export function compositionOf(judged: JudgedFamily): PartInterval[] {
  if (judged.family.fluids.length === 0) return [];
  const columns: Columns = { weights: [], shares: new Map() };
  gather(judged, 1, columns);
  return intervalsOf(columns);
}

/** Families below add nothing that the intervals show. */
const LEAST_FAMILY = 0.002;

/** The same whatever the family: all that are made of known parts, each by its probability. */
export function overallComposition({ families }: Posterior): PartInterval[] {
  const columns: Columns = { weights: [], shares: new Map() };
  for (const judged of families) {
    const { fluids } = judged.family;
    if (judged.probability < LEAST_FAMILY || fluids.length === 0) continue;
    gather(judged, judged.probability, columns);
  }
  return columns.weights.length === 0 ? [] : intervalsOf(columns);
}
