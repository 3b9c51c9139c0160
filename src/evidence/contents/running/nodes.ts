import type { FluidId } from "../../../fluids/index.ts";
import { normalisedWeights } from "../../../inference/index.ts";
import { placeAt } from "../compositions.ts";
import type { JudgedCell, JudgedFamily, Posterior } from "../posterior.ts";

/** A part of a family that the model is run for. */
export interface RunCell {
  readonly family: string;
  readonly part: number;
  /** The fluids of its compositions, in the order of the nodes' fractions. */
  readonly fluids: readonly FluidId[];
  /** Mass fractions at which the model is run. */
  readonly nodes: readonly Float64Array[];
}

/** Cells that hold less are not worth a run: they stay as they are. */
const LEAST = 0.01;
/** From here on a mixture's compositions are looked at closely. */
const MUCH = 0.05;
/** Work that all nodes may cost together, in property packs of a pure fluid; a mixture's costs three. */
const BUDGET = 33;
const MIXTURE_COST = 3;

/** Contents that are run through the vehicle's model, the most probable parts of families first. */
export function nodesOf({ families }: Posterior): RunCell[] {
  const cells = families
    .flatMap((judged) => partsOf(judged))
    .filter(({ probability }) => probability >= LEAST)
    .sort((a, b) => b.probability - a.probability);
  let left = BUDGET;
  return cells.flatMap(({ judged, part, probability }) => {
    const cost = judged.family.fluids.length === 1 ? 1 : MIXTURE_COST;
    const count = Math.min(wanted(judged, part, probability), Math.floor(left / cost));
    if (count < 1) return [];
    const nodes = spread(judged, part, count);
    left -= cost * nodes.length;
    return [{ family: judged.family.id, part, fluids: judged.family.fluids, nodes }];
  });
}

interface Part {
  readonly judged: JudgedFamily;
  readonly part: number;
  readonly probability: number;
}

/** Parts that the model could run. Air it treats too crudely, gas and what is unknown have no cycle. */
function partsOf(judged: JudgedFamily): Part[] {
  const { fluids } = judged.family;
  if (fluids.length === 0 || fluids.includes("R728")) return [];
  const shares = normalisedWeights(judged.parts.map(({ logWeight }) => logWeight));
  return judged.parts.map((_, part) => ({
    judged,
    part,
    probability: judged.probability * (shares[part] ?? 0),
  }));
}

/** A named blend is made within 2 %: one composition stands for it. */
function wanted({ family }: JudgedFamily, part: number, probability: number): number {
  const free = family.center ? 0 : (family.cells[part]?.dimensions ?? 0);
  if (free === 0) return 1;
  return probability >= MUCH ? 2 * free + 1 : free + 1;
}

/** Share of a part's weight within which nodes lie. */
const BULK = 0.98;
/** Nodes nearer than this, by mass, are one. */
const APART = 0.004;

/** The mean composition, then always the one farthest from all that are taken. */
function spread(judged: JudgedFamily, part: number, count: number): Float64Array[] {
  const cell = judged.parts[part];
  if (!cell) return [];
  const { points, mean } = bulkOf(judged, part, cell);
  const nodes: Float64Array[] = [mean];
  while (nodes.length < count) {
    const next = farthest(points, nodes);
    if (!next || next.distance < APART) break;
    nodes.push(next.point);
  }
  return nodes;
}

export const distance = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += ((a[i] ?? 0) - (b[i] ?? 0)) ** 2;
  return Math.sqrt(sum);
};

function farthest(points: readonly Float64Array[], nodes: readonly Float64Array[]) {
  let best: { readonly point: Float64Array; readonly distance: number } | undefined;
  for (const point of points) {
    const away = Math.min(...nodes.map((node) => distance(point, node)));
    if (!best || away > best.distance) best = { point, distance: away };
  }
  return best;
}

/** Compositions of a part's points that carry its weight. */
function bulkOf(judged: JudgedFamily, part: number, { samples }: JudgedCell) {
  const n = judged.family.fluids.length;
  const weights = normalisedWeights(samples.logWeights);
  const order = Array.from(weights, (_, k) => k).sort(
    (a, b) => (weights[b] ?? 0) - (weights[a] ?? 0),
  );
  const points: Float64Array[] = [];
  const mean = new Float64Array(n);
  let sum = 0;
  for (const k of order) {
    const weight = weights[k] ?? 0;
    const masses = placeAt(judged, part, k).masses()?.share ?? [];
    const point = Float64Array.from({ length: n }, (_, i) => masses[i] ?? 0);
    points.push(point);
    for (let i = 0; i < n; i++) mean[i] = (mean[i] ?? 0) + weight * (point[i] ?? 0);
    sum += weight;
    if (sum >= BULK) break;
  }
  const whole = mean.reduce((all, each) => all + each, 0);
  return { points, mean: Float64Array.from(mean, (each) => each / whole) };
}
