import {
  cellQuantile,
  type Gaussian,
  logDensity,
  normalisedWeights,
  partOf,
  squaredDistance,
} from "../../inference/index.ts";
import type { Composition } from "../../vehicle/index.ts";
import { type FaultName, faultNames } from "./hypotheses.ts";
import type { BranchMoments } from "./moments.ts";
import type { Evidence } from "./evidence.ts";

/** A severity of a branch with its posterior weight. */
export interface Weighted {
  readonly fault: FaultName;
  /** Place of the branch among the branches. */
  readonly branch: number;
  readonly severity: number;
  /** Of the severities for which it stands. */
  readonly width: number;
  readonly weight: number;
  readonly expected: Gaussian;
}

export interface SeverityRange {
  readonly median: number;
  /** 95 %. */
  readonly from: number;
  readonly to: number;
}

export interface Posterior {
  readonly points: readonly Weighted[];
  readonly probability: Readonly<Record<FaultName, number>>;
  /** Of the best severity of any branch: squared distance of the readings in standard deviations. */
  readonly bestFit: number;
}

/** Adds the instruments' noise to what is expected of the readings. */
export function expectedReadings(expected: Gaussian, { picks, noise }: Evidence): Gaussian {
  const part = partOf(expected, picks);
  return {
    mean: part.mean,
    covariance: part.covariance.map((value, i) => value + (noise[i] ?? 0)),
  };
}

/**
 * Bayes' rule over all branches and severities; lumps of the sound vehicle are integrated out in each point's
 * covariance. A severity at which the system would not run has no likelihood: the readings came from one that ran.
 */
export function posteriorOf(branches: readonly BranchMoments[], evidence: Evidence): Posterior {
  const candidates = branches.flatMap(({ branch: { fault, prior }, points }, branch) =>
    points.flatMap(({ severity, width, weight, expected }) =>
      expected ? [{ fault, branch, severity, width, prior: prior * weight, expected }] : [],
    ),
  );
  const fits = candidates.map(({ expected }) => expectedReadings(expected, evidence));
  const { y } = evidence;
  const weights = normalisedWeights(
    candidates.map(({ prior }, i) => {
      const fit = fits[i];
      return fit ? Math.log(prior) + logDensity(fit, y) : -Infinity;
    }),
  );
  const points = candidates.map((point, i) => ({ ...point, weight: weights[i] ?? 0 }));
  const probability = Object.fromEntries(
    faultNames.map((name) => [
      name,
      points.reduce((sum, { fault, weight }) => sum + (fault === name ? weight : 0), 0),
    ]),
  ) as Record<FaultName, number>;
  return {
    points,
    probability,
    bestFit: fits.reduce((best, fit) => Math.min(best, squaredDistance(fit, y)), Infinity),
  };
}

/** Severity of a fault, given that it is the one; undefined where it has none or no weight. */
export function severityRange({ points }: Posterior, fault: FaultName): SeverityRange | undefined {
  const own = points.filter((point) => point.fault === fault && point.weight > 0);
  if (fault === "none" || fault === "wrong-refrigerant" || own.length === 0) return undefined;
  // Up to the ends of what each severity stands for: else the ends of a fault's range lie outside every interval.
  const cells = own.map(({ severity, width, weight }) => ({
    from: severity - width / 2,
    to: severity + width / 2,
    weight,
  }));
  const at = (share: number): number => cellQuantile(cells, share);
  return { median: at(0.5), from: at(0.025), to: at(0.975) };
}

/** Probabilities of what may be inside instead. */
export function substitutesIn(
  { points }: Posterior,
  branches: readonly BranchMoments[],
): readonly { readonly composition: Composition; readonly probability: number }[] {
  return branches
    .flatMap(({ branch: { substitute } }, k) =>
      substitute
        ? [
            {
              composition: substitute,
              probability: points.reduce((sum, p) => sum + (p.branch === k ? p.weight : 0), 0),
            },
          ]
        : [],
    )
    .sort((a, b) => b.probability - a.probability);
}
