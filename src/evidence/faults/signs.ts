import type { Gaussian } from "../../inference/index.ts";
import { type Evidence } from "./evidence.ts";
import type { FaultName } from "./hypotheses.ts";
import { expectedReadings, type Posterior } from "./posterior.ts";
import { type FaultQuantity, quantityAt } from "./quantities.ts";

/** What one reading says of one fault. */
export interface Sign {
  readonly quantity: FaultQuantity;
  /** Place of its run among the runs. */
  readonly run: number;
  readonly says: "for" | "against" | "neither";
  /** Distance from what a sound vehicle shows, in standard deviations of instrument, vehicle and model. */
  readonly fromHealthy: number;
  /** The same from what this fault would show, at its likely severities. */
  readonly fromFault: number;
  /** Which way the fault moves this reading, in the same standard deviations of a sound vehicle. */
  readonly shift: number;
}

/** A reading this far from a sound vehicle is a sign; a rule of 95 %. */
const outside = 2;
/** A fault that moves a reading by less does not own its deviation. */
const leastShift = 1;
/** Two readings that vary together this much in sound vehicles are one sign. */
const oneSign = 0.8;

/** Whether each reading speaks for or against a fault. */
export function signsOf(
  fault: FaultName,
  posterior: Posterior,
  healthy: Gaussian,
  evidence: Evidence,
): readonly Sign[] {
  const base = expectedReadings(healthy, evidence);
  const own = mixtureOf(fault, posterior, evidence);
  return evidence.picks.map((pick, i) => {
    const y = evidence.y[i] ?? 0;
    const [sound, sd] = [base.mean[i] ?? 0, deviationAt(base, i)];
    const { mean, sd: sdFault } = own?.[i] ?? { mean: sound, sd };
    const fromHealthy = (y - sound) / sd;
    const fromFault = (y - mean) / sdFault;
    const shift = (mean - sound) / sd;
    return {
      ...quantityAt(pick),
      fromHealthy,
      fromFault,
      shift,
      says: verdict(fromHealthy, fromFault, shift),
    };
  });
}

function verdict(fromHealthy: number, fromFault: number, shift: number): Sign["says"] {
  if (Math.abs(fromFault) >= outside) return "against";
  const sameWay = fromHealthy * shift > 0 && Math.abs(shift) >= leastShift;
  return Math.abs(fromHealthy) >= outside && sameWay ? "for" : "neither";
}

const deviationAt = ({ mean, covariance }: Gaussian, i: number): number =>
  Math.sqrt(covariance[i * mean.length + i] ?? 0);

/** Mean and standard deviation of each reading over a fault's severities, by their posterior weights. */
function mixtureOf(fault: FaultName, { points }: Posterior, evidence: Evidence) {
  const own = points.filter((point) => point.fault === fault);
  const total = own.reduce((sum, { weight }) => sum + weight, 0);
  if (own.length === 0) return undefined;
  const parts = own.map(({ expected, weight }) => ({
    share: total > 0 ? weight / total : 1 / own.length,
    fit: expectedReadings(expected, evidence),
  }));
  return evidence.picks.map((_, i) => {
    const mean = parts.reduce((sum, { share, fit }) => sum + share * (fit.mean[i] ?? 0), 0);
    const variance = parts.reduce(
      (sum, { share, fit }) =>
        sum + share * (deviationAt(fit, i) ** 2 + ((fit.mean[i] ?? 0) - mean) ** 2),
      0,
    );
    return { mean, sd: Math.sqrt(variance) };
  });
}

/**
 * How many independent signs speak for a fault: readings outside of what a sound vehicle shows, in the fault's
 * direction, that do not merely repeat each other. The same reading in another run is the same instrument's word once
 * more; readings whose correlation in sound vehicles is 0.8 or more have a shared gauge or a shared cause. A static
 * pressure is read at rest and counts for itself.
 */
export function independentSigns(
  signs: readonly Sign[],
  healthy: Gaussian,
  evidence: Evidence,
): number {
  const base = expectedReadings(healthy, evidence);
  const n = base.mean.length;
  const correlation = (i: number, j: number): number =>
    Math.abs(base.covariance[i * n + j] ?? 0) / (deviationAt(base, i) * deviationAt(base, j));
  const repeats = (i: number, j: number): boolean =>
    signs[i]?.quantity === signs[j]?.quantity || correlation(i, j) >= oneSign;
  const counted: number[] = [];
  const strongest = signs
    .map((sign, i) => ({ sign, i }))
    .filter(({ sign }) => sign.says === "for")
    .sort((a, b) => Math.abs(b.sign.fromHealthy) - Math.abs(a.sign.fromHealthy));
  for (const { i } of strongest) {
    if (!counted.some((j) => repeats(i, j))) counted.push(i);
  }
  return counted.length;
}
