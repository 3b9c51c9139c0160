import {
  betweenGaussians,
  type Gaussian,
  secantMoments,
  secantsOf,
} from "../../inference/index.ts";
import type { Branch, Faulty } from "./hypotheses.ts";
import { leftOut } from "./left-out.ts";
import { daySpread, type Knowledge, moved, type Move, touches } from "./nuisances.ts";
import { predict, type Prediction, type Reader } from "./predict.ts";

/** A vehicle in one of its runs, and who reads it there. */
export interface System {
  readonly faulty: Faulty;
  readonly reader: Reader;
}

/** What readings are expected at one severity; undefined where the system does not run. */
export interface Node {
  readonly severity: number;
  readonly expected: Gaussian | undefined;
  /** Readings where the lumps are, their slopes along each direction, and the covariance of what the model leaves out. */
  readonly values: readonly number[];
  readonly slopes: readonly Float64Array[];
  readonly left: Float64Array;
}

/** One severity, which stands for all those around it, with its share of the branch's prior. */
export interface Point {
  readonly severity: number;
  /** Of the severities for which it stands. */
  readonly width: number;
  readonly weight: number;
  readonly expected: Gaussian | undefined;
}

export interface BranchMoments {
  readonly branch: Branch;
  /** Severities at which the model was solved. */
  readonly nodes: readonly Node[];
  /** Those between them too. */
  readonly points: readonly Point[];
}

/** Severities between two that were solved. */
const between = 8;

/** Expected readings over all severities of a branch, in the runs of the sound vehicle. */
export function branchMoments(
  branch: Branch,
  sound: readonly System[],
  known: Knowledge,
  healthy: Gaussian | undefined,
): BranchMoments {
  const nodes = branch.nodes.map((severity): Node => {
    const solved = solvedAt(withFault(sound, branch, severity), known, healthy);
    return { severity, ...(solved ?? unsolved) };
  });
  return { branch, nodes, points: pointsBetween(nodes) };
}

const unsolved = { expected: undefined, values: [], slopes: [], left: new Float64Array() };

/** The same vehicle in the same runs with a fault. */
export const withFault = (
  sound: readonly System[],
  branch: Branch,
  severity: number,
): readonly System[] =>
  sound.map(({ faulty, reader }) => ({ faulty: branch.apply(severity, faulty), reader }));

/**
 * Mean and covariance of the readings of a vehicle in all its runs, after each other: its lumps are moved one
 * direction at a time by a standard deviation up and down in all runs together, what belongs to a day in its own run.
 * Includes what the model leaves out, not the instruments.
 *
 * @returns undefined when the vehicle does not run in one of them.
 */
export const momentsAt = (
  systems: readonly System[],
  known: Knowledge,
  healthy: Gaussian | undefined,
): Gaussian | undefined => solvedAt(systems, known, healthy)?.expected;

function solvedAt(systems: readonly System[], known: Knowledge, healthy: Gaussian | undefined) {
  const centres = centresOf(systems);
  if (!centres) return undefined;
  const values = centres.flatMap((run) => run.values);
  const pairs = pairsOf(systems, centres, directionsOf(systems, known));
  const { mean, covariance } = secantMoments(values, pairs);
  const left = leftOut(mean, runsOf(systems, centres), healthy);
  return {
    expected: { mean, covariance: covariance.map((value, i) => value + (left[i] ?? 0)) },
    values,
    slopes: secantsOf(values, pairs).map(({ slope }) => slope),
    left,
  };
}

/** What decides how much the model leaves out. */
const runsOf = (systems: readonly System[], centres: readonly Prediction[]) =>
  systems.flatMap(({ faulty }, k) => {
    const { conditions } = faulty.request;
    const centre = centres[k];
    return centre ? [{ conditions, regime: centre.regime }] : [];
  });

/** What the vehicle shows in each run with its lumps at their means. */
export function centresOf(systems: readonly System[]): readonly Prediction[] | undefined {
  const centres = systems.flatMap(({ faulty, reader }) => predict(faulty, reader) ?? []);
  return centres.length === systems.length ? centres : undefined;
}

/** A direction of the lumps by one standard deviation: of the vehicle in all runs, or of the day in one. */
export interface Direction {
  readonly move: Move;
  readonly only?: number;
}

export const directionsOf = (
  systems: readonly System[],
  known: Knowledge,
): readonly Direction[] => [
  ...known.directions.map((move) => ({ move })),
  ...systems.flatMap(({ faulty }, k) =>
    daySpread(faulty.request).map(({ name, sd }) => ({ move: { [name]: sd }, only: k })),
  ),
];

/** Readings a step up and down each direction; undefined where the vehicle does not run there. */
export function pairsOf(
  systems: readonly System[],
  centres: readonly Prediction[],
  directions: readonly Direction[],
  step = 1,
) {
  const end = ({ move, only }: Direction, times: number): readonly number[] | undefined => {
    const all: number[] = [];
    for (const [k, { faulty, reader }] of systems.entries()) {
      const centre = centres[k];
      const stays = (only ?? k) !== k || !touches(move, faulty.request);
      const run = stays ? centre : predict(moved(faulty, move, times), reader, centre?.start);
      if (!run) return undefined;
      all.push(...run.values);
    }
    return all;
  };
  return directions.map((one) => ({ up: end(one, step), down: end(one, -step) }));
}

export function pointsBetween(nodes: readonly Node[]): readonly Point[] {
  const [first] = nodes;
  const last = nodes.at(-1);
  if (!first || !last) throw new RangeError("a branch has no severity");
  if (nodes.length === 1) return [{ ...first, width: 0, weight: 1 }];
  const points: Point[] = [];
  const range = last.severity - first.severity;
  for (const [k, from] of nodes.entries()) {
    const to = nodes[k + 1];
    if (!to) break;
    for (let i = 0; i < between; i++) {
      const share = (i + 0.5) / between;
      points.push({
        severity: from.severity + share * (to.severity - from.severity),
        width: (to.severity - from.severity) / between,
        weight: (to.severity - from.severity) / range / between,
        expected:
          from.expected && to.expected && betweenGaussians(from.expected, to.expected, share),
      });
    }
  }
  return points;
}
