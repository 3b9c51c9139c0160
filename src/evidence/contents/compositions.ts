import type { FluidId } from "../../fluids/index.ts";
import { normalisedWeights, weightedQuantile } from "../../inference/index.ts";
import type { JudgedFamily } from "./posterior.ts";

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

/** Shares by mass with their 95 % intervals, the largest first; a part that is never there is left out. */
export function compositionOf(judged: JudgedFamily): PartInterval[] {
  const { fluids } = judged.family;
  if (fluids.length === 0) return [];
  const { weights, at } = pointsOf(judged);
  const columns = fluids.map(() => new Float64Array(at.length));
  for (const [k, { part, point }] of at.entries()) {
    if ((weights[k] ?? 0) === 0) continue;
    const masses = placeAt(judged, part, point).masses();
    for (const [i, column] of columns.entries()) column[k] = masses?.share[i] ?? 0;
  }
  return fluids
    .map((fluid, i): PartInterval => {
      const column = columns[i] ?? new Float64Array(0);
      const mean = column.reduce((sum, each, k) => sum + each * (weights[k] ?? 0), 0);
      return {
        fluid,
        mean,
        from: weightedQuantile(column, weights, 0.025),
        to: weightedQuantile(column, weights, 0.975),
      };
    })
    .filter(({ to }) => to > 5e-4)
    .sort((a, b) => b.mean - a.mean);
}
