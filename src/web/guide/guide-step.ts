import type { TrialView } from "../../trial/index.ts";
import { afterSteps } from "./after-steps.ts";
import { beforeSteps } from "./before-steps.ts";
import type { GuideStep } from "./step.ts";

/** All cards of the guide, in the order of the work. */
export const guideSteps: readonly GuideStep[] = [...beforeSteps, ...afterSteps];

export interface GuideStanding {
  /** The first step that the log does not show as done; none when all are. */
  readonly step?: GuideStep;
  /** The one before it. */
  readonly last?: GuideStep;
  /** Steps done before this one, and all there are. */
  readonly number: number;
  readonly of: number;
}

/** Where a learner stands, from the log alone: whatever was entered, here or elsewhere, counts. */
export function guideStep(view: TrialView): GuideStanding {
  const open = guideSteps.findIndex(({ done }) => !done(view));
  const number = open === -1 ? guideSteps.length : open;
  const step = guideSteps[number];
  const last = guideSteps[number - 1];
  return { number, of: guideSteps.length, ...(step && { step }), ...(last && { last }) };
}
