import type { IntervalProposal, StageView, TrialView } from "../../trial/index.ts";
import { conditionNames } from "../../report/index.ts";
import type { Draft } from "../shell/drafts.ts";

/** What is in the vehicle at this stage: the round's product, or the label refrigerant. */
export function chargedAt(view: TrialView, stage: StageView): string {
  if (stage.round !== undefined && stage.stage === "run") return `product:${stage.round}`;
  const label = view.vehicle?.labelRefrigerant;
  return label === undefined ? "" : `fluid:${label}`;
}

/** A run as it would be confirmed: settings as in the last run, condition as proposed. */
export function runStart(view: TrialView, stage: StageView, proposal?: IntervalProposal): Draft {
  const charged = chargedAt(view, stage);
  const last = view.runs.at(-1);
  const product = view.products.find(({ id }) => charged === `product:${id}`);
  const what = product?.name ?? view.vehicle?.labelRefrigerant ?? "";
  const condition = proposal?.condition ?? "parked-idle";
  return {
    name: `${conditionNames[condition]}, ${what}`.replace(/, $/, "").replace(/^./, (c) => c.toUpperCase()),
    condition,
    airSource: last?.airSource ?? "",
    blower: last?.blower ?? "",
    charged,
  };
}
