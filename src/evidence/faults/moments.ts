import {
  betweenGaussians,
  type Gaussian,
  secantMoments,
  withNoise,
} from "../../inference/index.ts";
import type { Conditions, VehicleCase } from "../../vehicle/index.ts";
import type { Branch, Faulty } from "./hypotheses.ts";
import { type Knowledge, type Move, moved } from "./nuisances.ts";
import { predict, type Prediction, type Reader } from "./predict.ts";
import {
  discrepancy,
  effectShare,
  faultQuantities,
  innerWidth,
  outer,
  ventOffBalance,
} from "./quantities.ts";

/** What readings are expected at one severity; undefined where the system does not run. */
interface Node {
  readonly severity: number;
  readonly expected: Gaussian | undefined;
}

/** One severity with its share of the branch's prior. */
export interface Point {
  readonly severity: number;
  readonly weight: number;
  readonly expected: Gaussian | undefined;
}

export interface BranchMoments {
  readonly branch: Branch;
  readonly points: readonly Point[];
}

/** Severities between two that were solved. */
const between = 8;

/** Expected readings over all severities of a branch. */
export function branchMoments(
  branch: Branch,
  reader: Reader,
  known: Knowledge,
  healthy: Gaussian | undefined,
): BranchMoments {
  const nodes = branch.nodes.map((severity): Node => ({
    severity,
    expected: momentsAt(branch.apply(severity), reader, known, healthy),
  }));
  return { branch, points: pointsBetween(nodes) };
}

/**
 * Mean and covariance of the readings at one severity: lumps are moved one at a time by a standard deviation up and
 * down. Includes what the model leaves out, not the instruments.
 */
export function momentsAt(
  faulty: Faulty,
  reader: Reader,
  known: Knowledge,
  healthy: Gaussian | undefined,
): Gaussian | undefined {
  const centre = predict(faulty, reader);
  if (!centre) return undefined;
  const pairs = pairsAlong(known, (move, times) => {
    const end = withVent(faulty, moved(faulty.request, move, times));
    return predict(end, reader, centre.start)?.values;
  });
  const moments = secantMoments(centre.values, pairs);
  return withNoise(moments, leftOut(moments.mean, centre, healthy));
}

/**
 * The same for the readings of a run and of another one in other conditions, after each other: one vehicle, so the
 * lumps are shared.
 */
export function momentsPair(
  faulty: Faulty,
  conditions: Conditions,
  reader: Reader,
  known: Knowledge,
): Gaussian | undefined {
  const [air, from] = [faulty.request.conditions, faulty.request];
  // A fault of the blower goes with the vehicle.
  const there = (request: VehicleCase): VehicleCase => {
    const returnAir = conditions.returnAir;
    return { ...request, conditions: { ...conditions, blower: air.blower, returnAir } };
  };
  const here = predict(faulty, reader);
  const away = predict({ ...faulty, request: there(from) }, reader);
  if (!here || !away) return undefined;
  const pairs = pairsAlong(known, (move, times) => {
    const [a, b] = [moved(from, move, times), moved(there(from), move, times)];
    const first = predict(withVent(faulty, a), reader, here.start);
    const second = predict(withVent(faulty, b), reader, away.start);
    return first && second && [...first.values, ...second.values];
  });
  const moments = secantMoments([...here.values, ...away.values], pairs);
  return withNoise(moments, [
    ...leftOut(here.values, here, undefined),
    ...leftOut(away.values, away, undefined),
  ]);
}

const withVent = ({ ventOffset }: Faulty, { request, vent }: ReturnType<typeof moved>): Faulty => ({
  request,
  ventOffset: ventOffset + vent,
});

/** Values one standard deviation up and down each direction. */
export const pairsAlong = (
  { directions }: Knowledge,
  end: (move: Move, times: number) => readonly number[] | undefined,
) => directions.map((move) => ({ up: end(move, 1), down: end(move, -1) }));

/** Standard deviations of what the model leaves out: in a sound vehicle, and of the fault's own effect. */
function leftOut(
  mean: ArrayLike<number>,
  { regime }: Prediction,
  healthy: Gaussian | undefined,
): readonly number[] {
  return faultQuantities.map((quantity, i) => {
    const off = quantity === "vent" && regime !== "balanced";
    const effect = healthy ? (mean[i] ?? 0) - (healthy.mean[i] ?? 0) : 0;
    const own = off ? ventOffBalance : discrepancy[quantity];
    return Math.hypot(
      innerWidth(quantity, outer(quantity, mean[i] ?? 0), own),
      effectShare * effect,
    );
  });
}

function pointsBetween(nodes: readonly Node[]): readonly Point[] {
  const [first] = nodes;
  const last = nodes.at(-1);
  if (!first || !last) throw new RangeError("a branch has no severity");
  if (nodes.length === 1) return [{ ...first, weight: 1 }];
  const points: Point[] = [];
  const range = last.severity - first.severity;
  for (const [k, from] of nodes.entries()) {
    const to = nodes[k + 1];
    if (!to) break;
    for (let i = 0; i < between; i++) {
      const share = (i + 0.5) / between;
      points.push({
        severity: from.severity + share * (to.severity - from.severity),
        weight: (to.severity - from.severity) / range / between,
        expected:
          from.expected && to.expected && betweenGaussians(from.expected, to.expected, share),
      });
    }
  }
  return points;
}
