import { branchesOf, type FaultName } from "../../src/evidence/faults/hypotheses.ts";
import { calibrationError, type Forecast, reliabilityTable } from "../../src/inference/index.ts";
import { presetVehicle, pureComposition } from "../../src/vehicle/index.ts";
import { faults } from "./campaign.ts";
import type { Score } from "./score.ts";

const edges = [0, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 1];

/** Chances before any reading, as the diagnosis states them. */
function statedPriors(): ReadonlyMap<FaultName, number> {
  const vehicle = presetVehicle("large-orifice");
  const fill = { composition: pureComposition("R134a"), charge: 1, air: 0 };
  const sums = new Map<FaultName, number>();
  for (const { fault, prior } of branchesOf({ vehicle, fill })) {
    sums.set(fault, (sums.get(fault) ?? 0) + prior);
  }
  return sums;
}

/**
 * Stated probabilities as they would be under the chances with which a campaign draws its vehicles: half of them
 * sound, every fault as likely as another. Only the likelihoods are on trial.
 */
function restated({ probabilities }: Score, priors: ReadonlyMap<FaultName, number>) {
  const drawn = (name: FaultName): number => (name === "none" ? 0.5 : 0.5 / faults.length);
  const weights = (["none", ...faults] as const).map((name) => ({
    name,
    weight: (probabilities[name] * drawn(name)) / (priors.get(name) ?? 1),
  }));
  const total = weights.reduce((sum, { weight }) => sum + weight, 0);
  return weights.map(({ name, weight }) => ({ name, probability: weight / total }));
}

/** How often what was stated came true: half sound vehicles and half faulty ones are given. */
export function reliabilityOf(all: readonly Score[]) {
  const priors = statedPriors();
  const stated = all.map((one) => ({ truth: one.truth, of: restated(one, priors) }));
  const forecasts = (takes: (name: FaultName) => boolean): readonly Forecast[] =>
    stated.flatMap(({ truth, of }) =>
      of
        .filter(({ name }) => takes(name))
        .map(({ name, probability }) => ({ probability, happened: name === truth })),
    );
  const anyFault = reliabilityTable(
    forecasts((name) => name !== "none"),
    edges,
  );
  const sound = reliabilityTable(
    forecasts((name) => name === "none"),
    edges,
  );
  const kinds = (["none", ...faults] as const).map((name) => ({
    name,
    expected: stated.reduce(
      (sum, { of }) => sum + (of.find((one) => one.name === name)?.probability ?? 0),
      0,
    ),
    true: all.filter(({ truth }) => truth === name).length,
  }));
  return { anyFault, sound, kinds, error: calibrationError([...anyFault, ...sound]) };
}

export function reliabilityText(all: readonly Score[]): string {
  const { anyFault, sound, kinds, error } = reliabilityOf(all);
  const rows = (title: string, table: typeof sound): readonly string[] =>
    table.map(
      ({ from, to, count, stated, observed, standardError }) =>
        `${title} ${from} to ${to}: ${count}, stated ${stated.toFixed(3)}, observed ${observed.toFixed(3)} ± ${standardError.toFixed(3)}`,
    );
  return [
    ...rows("a fault", anyFault),
    ...rows("sound", sound),
    ...kinds.map((one) => `${one.name}: expected ${one.expected.toFixed(1)}, true ${one.true}`),
    `calibration error ${error.toFixed(4)}`,
  ].join("\n");
}
