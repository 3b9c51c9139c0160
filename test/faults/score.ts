import { evidenceIn, type FaultModel, judge, modelOf } from "../../src/evidence/faults/diagnose.ts";
import type { FaultName } from "../../src/evidence/faults/hypotheses.ts";
import { expectedReadings } from "../../src/evidence/faults/posterior.ts";
import { betweenGaussians, squaredDistance } from "../../src/inference/index.ts";
import { saturationOf } from "../../src/vehicle/index.ts";
import type { HiddenFault } from "./hidden-fault.ts";

/** How a hidden fault was diagnosed. */
export interface Score {
  readonly truth: FaultName;
  /** Smallest distance of what the truth shows from what anything else shows, in noise units. */
  readonly distance: number;
  readonly leading: FaultName;
  readonly leadingFault: FaultName;
  readonly named: string;
  readonly signs: number;
  readonly covered: boolean | undefined;
  /** Of the truth. */
  readonly probability: number;
  /** Of every hypothesis. */
  readonly probabilities: Readonly<Record<FaultName, number>>;
  readonly fits: boolean;
  readonly ms: number;
}

/**
 * Distance of a fault from everything else, without looking at the readings' values: between the forward model's means
 * at the hidden severity and at every severity of every other hypothesis (a sound vehicle included), in the mean of
 * both covariances (instruments, vehicle to vehicle, model).
 */
function distanceOf(model: FaultModel, { runs, fault, severity, substitute }: HiddenFault): number {
  const evidence = evidenceIn(model, runs);
  const all = model.branches.flatMap(({ branch, points }) =>
    points.flatMap((point) =>
      point.expected
        ? [
            {
              fault: branch.fault,
              severity: point.severity,
              same: branch.fault === fault && inside(branch.substitute) === inside(substitute),
              at: expectedReadings(point.expected, evidence),
            },
          ]
        : [],
    ),
  );
  const own = all.filter(({ same }) => same);
  const off = Math.min(...own.map((point) => Math.abs(point.severity - severity)));
  const mine = own.filter((point) => Math.abs(point.severity - severity) <= off + 1e-9);
  let smallest = Infinity;
  for (const { at } of mine) {
    for (const other of all) {
      if (other.fault === fault) continue;
      const both = betweenGaussians(at, other.at, 0.5);
      const d = squaredDistance({ mean: at.mean, covariance: both.covariance }, other.at.mean);
      smallest = Math.min(smallest, d);
    }
  }
  return Math.sqrt(smallest);
}

const inside = (substitute: HiddenFault["substitute"]): string =>
  substitute ? `${substitute.ids.join()} ${substitute.fractions.join()}` : "";

export function score(hidden: HiddenFault): Score {
  const start = performance.now();
  const label = saturationOf(hidden.healthy.fill.composition);
  if (label.kind !== "saturation") throw new Error(label.reason);
  const model = modelOf(hidden, label);
  if (!model) throw new Error("a sound vehicle does not run");
  const found = judge(model, hidden);
  const ms = performance.now() - start;
  const leading = found.faults[0];
  const leadingFault = found.faults.find(({ name }) => name !== "none");
  if (!leading || !leadingFault) throw new Error("nothing leads");
  const own = found.faults.find(({ name }) => name === hidden.fault);
  const range = own?.severity;
  return {
    truth: hidden.fault,
    distance: hidden.fault === "none" ? 0 : distanceOf(model, hidden),
    leading: leading.name,
    leadingFault: leadingFault.name,
    named: found.named,
    signs: own?.independentSigns ?? 0,
    covered: range && range.from <= hidden.severity && hidden.severity <= range.to,
    probability: own?.probability ?? 0,
    probabilities: found.posterior.probability,
    fits: found.fits,
    ms,
  };
}
