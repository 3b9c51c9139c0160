import { conditionedOn, partOf, secantsOf, squaredDistance } from "../../inference/index.ts";
import type { Evidence } from "./evidence.ts";
import {
  type BranchMoments,
  centresOf,
  type Direction,
  directionsOf,
  type Node,
  pairsOf,
  pointsBetween,
  type System,
  withFault,
} from "./moments.ts";
import { type Knowledge, type Move, moved, type Nuisance, nuisanceNames } from "./nuisances.ts";
import { type Posterior, posteriorOf } from "./posterior.ts";

/** What does not change from hypothesis to hypothesis. */
interface Near {
  readonly systems: readonly System[];
  readonly known: Knowledge;
  readonly evidence: Evidence;
}

const rounds = 3;
/** Slopes near the readings are taken over a part of a standard deviation: most of it is known by then. */
const step = 0.5;
/** No lump is sought farther away than this, standard deviations. */
const farthest = 3;
/** A node is solved anew while a severity beside it holds this much; a sound vehicle always is. */
const worthwhile = 0.003;
/** Lumps that move less than this, standard deviations, have arrived. */
const arrived = 0.15;
const halvings = 3;

/** A node on its way: where its lumps are, and how badly they and the readings fit there. */
interface Walked extends Node {
  readonly z: readonly number[];
  readonly misfit: number;
  readonly done: boolean;
}

/**
 * Hypotheses near the readings: the lumps of each severity that counts go to where the readings put them, and the
 * slopes are taken anew there (Gauss-Newton to the mode, then Laplace's approximation). Far from their means the model
 * is bent: a sound vehicle with little condenser air has a steeper head, a duty that was 1 falls.
 */
export function refined(
  branches: readonly BranchMoments[],
  near: Near,
): { readonly branches: readonly BranchMoments[]; readonly posterior: Posterior } {
  let walked = branches.map((one) => ({
    ...one,
    nodes: one.nodes.map((node) => atStart(node, near.evidence)),
  }));
  let posterior = posteriorOf(walked, near.evidence);
  for (let round = 0; round < rounds; round++) {
    const heavy = weightsBeside(walked, posterior);
    const before = walked;
    walked = before.map((one, b) => {
      const nodes = one.nodes.map((node, k) => {
        const counts = one.branch.fault === "none" || (heavy[b]?.[k] ?? 0) >= worthwhile;
        if (node.done || !counts) return node;
        return walkedOn(node, withFault(near.systems, one.branch, node.severity), near);
      });
      return nodes.some((node, k) => node !== one.nodes[k])
        ? { ...one, nodes, points: pointsBetween(nodes) }
        : one;
    });
    if (walked.every((one, b) => one === before[b])) break;
    posterior = posteriorOf(walked, near.evidence);
  }
  return { branches: walked, posterior };
}

function atStart(node: Node, evidence: Evidence): Walked {
  const z = node.slopes.map(() => 0);
  return { ...node, z, misfit: misfitAt(node, z, evidence), done: !node.expected };
}

/** The heaviest weight of a severity beside each node. */
function weightsBeside(
  branches: readonly BranchMoments[],
  { points }: Posterior,
): readonly (readonly number[])[] {
  const heavy = branches.map(({ nodes }) => nodes.map(() => 0));
  for (const { branch, severity, weight } of points) {
    const nodes = branches[branch]?.nodes ?? [];
    const own = heavy[branch];
    const above = nodes.findIndex((node) => node.severity >= severity);
    for (const k of [above - 1, above]) {
      if (own && k >= 0) own[k] = Math.max(own[k] ?? 0, weight);
    }
  }
  return heavy;
}

/** One step towards where the readings put the lumps; halved while it makes things worse. */
function walkedOn(node: Walked, systems: readonly System[], near: Near): Walked {
  const directions = directionsOf(systems, near.known);
  let z = placeOf(node, near.evidence);
  for (let k = 0; k < halvings; k++) {
    const there = systems.map(({ faulty, reader }, run) => ({
      faulty: moved(faulty, together(directions, z, run)),
      reader,
    }));
    const centres = centresOf(there);
    const values = centres?.flatMap((run) => run.values) ?? [];
    const misfit = centres ? misfitAt({ ...node, values }, z, near.evidence) : Infinity;
    if (centres && misfit <= node.misfit) {
      const done = z.every((at, i) => Math.abs(at - (node.z[i] ?? 0)) < arrived);
      const slopes = secantsOf(values, pairsOf(there, centres, directions, step)).map(({ slope }) =>
        slope.map((by) => by / step),
      );
      return linear({ ...node, values, slopes, z, misfit, done });
    }
    z = z.map((at, i) => (at + (node.z[i] ?? 0)) / 2);
  }
  return { ...node, done: true };
}

/** Squared distance of lumps from their means and of readings from what they show, in standard deviations. */
function misfitAt(
  { values, left }: Pick<Node, "values" | "left">,
  z: readonly number[],
  { picks, y, noise }: Evidence,
): number {
  if (values.length === 0) return Infinity;
  const own = partOf({ mean: Float64Array.from(values), covariance: left }, picks);
  const covariance = own.covariance.map((value, i) => value + (noise[i] ?? 0));
  return z.reduce((sum, at) => sum + at ** 2, squaredDistance({ mean: own.mean, covariance }, y));
}

/** A node whose expected readings are those of a straight line through where its lumps are. */
function linear(node: Walked): Walked {
  const mean = Float64Array.from(node.values);
  const n = mean.length;
  const covariance = node.left.slice();
  for (const [k, slope] of node.slopes.entries()) {
    for (let i = 0; i < n; i++) {
      const by = slope[i] ?? 0;
      mean[i] = (mean[i] ?? 0) - by * (node.z[k] ?? 0);
      for (let j = 0; j < n; j++) {
        covariance[i * n + j] = (covariance[i * n + j] ?? 0) + by * (slope[j] ?? 0);
      }
    }
  }
  return { ...node, expected: { mean, covariance } };
}

/** Where the readings put the lumps, in standard deviations of each direction. */
function placeOf({ slopes, expected }: Node, { picks, y, noise }: Evidence): readonly number[] {
  if (!expected) return [];
  const { mean, covariance } = expected;
  const [d, n] = [slopes.length, mean.length];
  const size = d + n;
  const joint = { mean: new Float64Array(size), covariance: new Float64Array(size * size) };
  for (const [k, slope] of slopes.entries()) {
    joint.covariance[k * size + k] = 1;
    for (const [i, by] of slope.entries()) {
      joint.covariance[k * size + d + i] = joint.covariance[(d + i) * size + k] = by;
    }
  }
  for (let i = 0; i < n; i++) {
    joint.mean[d + i] = mean[i] ?? 0;
    for (let j = 0; j < n; j++) {
      joint.covariance[(d + i) * size + d + j] = covariance[i * n + j] ?? 0;
    }
  }
  const read = picks.map((pick) => d + pick);
  const after = conditionedOn(joint, read, y, noise).mean.subarray(0, d);
  return Array.from(after, (at) => Math.max(-farthest, Math.min(farthest, at)));
}

/** The sum of all directions in a run. */
function together(directions: readonly Direction[], z: readonly number[], run: number): Move {
  const sum: Partial<Record<Nuisance, number>> = {};
  for (const [k, { move, only }] of directions.entries()) {
    if ((only ?? run) !== run) continue;
    for (const name of nuisanceNames) {
      const by = move[name];
      if (by !== undefined) sum[name] = (sum[name] ?? 0) + (z[k] ?? 0) * by;
    }
  }
  return sum;
}
