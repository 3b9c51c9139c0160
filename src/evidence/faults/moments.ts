import { betweenGaussians, type Gaussian, secantMoments } from "../../inference/index.ts";
import type { Branch, Faulty } from "./hypotheses.ts";
import { withLeftOut } from "./left-out.ts";
import { daySpread, type Knowledge, moved, type Move, touches } from "./nuisances.ts";
import { predict, type Prediction, type Reader } from "./predict.ts";

/** A vehicle in one of its runs, and who reads it there. */
export interface System {
  readonly faulty: Faulty;
  readonly reader: Reader;
}

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

/** Expected readings over all severities of a branch, in the runs of the sound vehicle. */
export function branchMoments(
  branch: Branch,
  sound: readonly System[],
  known: Knowledge,
  healthy: Gaussian | undefined,
): BranchMoments {
  const nodes = branch.nodes.map((severity): Node => ({
    severity,
    expected: momentsAt(withFault(sound, branch, severity), known, healthy),
  }));
  return { branch, points: pointsBetween(nodes) };
}

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
export function momentsAt(
  systems: readonly System[],
  known: Knowledge,
  healthy: Gaussian | undefined,
): Gaussian | undefined {
  const centres = centresOf(systems);
  if (!centres) return undefined;
  const moments = secantMoments(
    centres.flatMap(({ values }) => values),
    pairsOf(systems, centres, known),
  );
  const runs = centres.map(({ regime }, k) => ({
    conditions: conditionsOf(systems, k),
    regime,
  }));
  return withLeftOut(moments, runs, healthy);
}

function conditionsOf(systems: readonly System[], k: number) {
  const system = systems[k];
  if (!system) throw new RangeError(`there is no run ${k}`);
  return system.faulty.request.conditions;
}

/** What the vehicle shows in each run with its lumps at their means. */
export function centresOf(systems: readonly System[]): readonly Prediction[] | undefined {
  const centres = systems.flatMap(({ faulty, reader }) => predict(faulty, reader) ?? []);
  return centres.length === systems.length ? centres : undefined;
}

/** Readings one standard deviation up and down each direction; undefined where the vehicle does not run there. */
export function pairsOf(
  systems: readonly System[],
  centres: readonly Prediction[],
  known: Knowledge,
) {
  const end = (move: Move, times: number, only?: number): readonly number[] | undefined => {
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
  const days = systems.flatMap(({ faulty }, k) =>
    daySpread(faulty.request).map(({ name, sd }) => ({ move: { [name]: sd }, only: k })),
  );
  return [
    ...known.directions.map((move) => ({ up: end(move, 1), down: end(move, -1) })),
    ...days.map(({ move, only }) => ({ up: end(move, 1, only), down: end(move, -1, only) })),
  ];
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
