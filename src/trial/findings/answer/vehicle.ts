import { massTolerance } from "../../../service/index.ts";
import { unaccountedAccount, vehicleAccount } from "../../ledger/view.ts";
import type { TrialView } from "../../view.ts";
import type { FairComparison, FairDriftRow } from "../fair-comparison.ts";
import { type Answer, type AnswerVerdict, decidingFirst, type Reason, verdictOf } from "./view.ts";

/** Is the vehicle back as it was: its drift on the label refrigerant, its charge, and where the mass is. */
export function restoredAnswer(view: TrialView, fair: FairComparison | undefined): Answer {
  const reasons = [...driftReasons(fair), ...refilledReason(view), ...closureReason(view)];
  return {
    question: "restored",
    about: vehicleAccount,
    name: view.vehicle?.name ?? "The vehicle",
    verdict: verdictOf(reasons),
    reasons: decidingFirst(reasons),
  };
}

function driftReasons(fair: FairComparison | undefined): Reason[] {
  if (fair?.kind !== "compared" || fair.drift.length === 0) {
    return [{ verdict: "undecided", fact: { kind: "no-drift" } }];
  }
  return fair.drift
    .filter(({ quantity }) => quantity === "vent")
    .map((row) => {
      const margin = fair.margin.margins[row.quantity];
      return { verdict: driftVerdict(row, margin), fact: { kind: "drift", row, margin } };
    });
}

/** The whole interval within the margin, or beyond it; zero within says nothing by itself. */
function driftVerdict({ interval }: FairDriftRow, margin: number): AnswerVerdict {
  if (interval.from >= -margin && interval.to <= margin) return "yes";
  return interval.from > margin || interval.to < -margin ? "no" : "undecided";
}

/** The charge that the ledger has in the vehicle now, against its label. */
function refilledReason({ ledger, vehicle }: TrialView): Reason[] {
  const mass = ledger.accounts.find(({ id }) => id === vehicleAccount)?.mass;
  if (!vehicle || !mass || ledger.postings.length === 0) return [];
  const target = vehicle.labelCharge;
  const { tolerance } = massTolerance(target);
  const apart = Math.abs(mass.value - target);
  const verdict =
    apart + 2 * mass.u <= tolerance ? "yes" : apart - 2 * mass.u > tolerance ? "no" : "undecided";
  return [{ verdict, fact: { kind: "refilled", mass, target } }];
}

/** Checks on the vehicle and on what nobody can explain; a can that holds less than it says is no matter of the vehicle. */
function closureReason({ ledger }: TrialView): Reason[] {
  const closures = ledger.closures.filter(
    ({ account }) => account === vehicleAccount || account === unaccountedAccount,
  );
  if (closures.length === 0) return [];
  const open = closures.filter(({ grade }) => grade !== "closes");
  const verdict = open.some(({ grade }) => grade === "does-not-close")
    ? "no"
    : open.length > 0
      ? "undecided"
      : "yes";
  return [{ verdict, fact: { kind: "closures", closures: closures.length, open } }];
}
