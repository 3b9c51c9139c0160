import { type Evidence, type FaultReading, findFamily, meanOfSwing } from "../../evidence/index.ts";
import { modelOf } from "../expectation/vehicle-model.ts";
import type { RunView, TrialView } from "../view.ts";
import { chargedMass } from "./charged-mass.ts";
import { conditionsIn, onLabel, readingsOf } from "./faults.ts";
import type { GatheredEvidence } from "./gathered-evidence.ts";

type Ran = Extract<Evidence, { kind: "running" }>["runs"][number];

/** As many as say something more; of more, the last. */
const MOST_RUNS = 4;
const MOST_BASELINE = 6;
/** Hoses, and what stayed in the vehicle before, kg (common practice, no source). */
const HOSES = 0.005;

/**
 * Runs of the vehicle on a weighed charge of the product, with those on its label refrigerant to calibrate by.
 * Nothing where the vehicle has no model, nothing was weighed in or nobody read a run.
 */
export function ranOn(view: TrialView, round: string): GatheredEvidence[] {
  const { vehicle } = view;
  const choice = vehicle && modelOf(vehicle);
  const charge = chargedMass(view, round);
  if (choice?.kind !== "model" || !charge || !(charge.value > 0)) return [];
  // Whatever a vehicle was made for is a fluid or a named blend here, or nothing is known of it.
  const label = findFamily(vehicle?.labelRefrigerant ?? "");
  if (!label || label.fluids.length === 0) return [];
  const mine = view.runs
    .filter(({ charged }) => charged.kind === "product" && charged.product === round)
    .flatMap((run) => ranOf(view, run))
    .slice(-MOST_RUNS);
  if (mine.length === 0) return [];
  const baseline = view.runs
    .filter((run) => onLabel(view, run))
    .flatMap((run) => ranOf(view, run))
    .slice(-MOST_BASELINE);
  return [
    {
      evidence: {
        kind: "running",
        vehicle: choice.vehicle,
        label: label.id,
        charge: charge.value,
        uCharge: Math.hypot(charge.u, HOSES),
        runs: mine.map(({ ran }) => ran),
        baseline: baseline.map(({ ran }) => ran),
      },
      entries: [...mine, ...baseline].map(({ id }) => id),
    },
  ];
}

function ranOf(view: TrialView, run: RunView): { readonly id: string; readonly ran: Ran }[] {
  const known = conditionsIn(view, run);
  const readings = comparedOf(view, run);
  return known && readings.length > 0
    ? [{ id: run.id, ran: { conditions: known.conditions, readings } }]
    : [];
}

/** Low side, high side and vent of a run. */
function comparedOf(view: TrialView, run: RunView): FaultReading[] {
  const { low, lowest, highest, high, vent } = readingsOf(view, run);
  const between = lowest && highest ? meanOfSwing(lowest, highest) : undefined;
  return [
    ...(low ? [{ quantity: "low" as const, ...low }] : between ? [between] : []),
    ...(high ? [{ quantity: "high" as const, ...high }] : []),
    ...(vent ? [{ quantity: "vent" as const, ...vent }] : []),
  ];
}
