import type { Stage, TrialView } from "../../trial/index.ts";

/** One card of the guide. */
export interface GuideStep {
  /** Also the name of its part of the lesson. */
  readonly id: string;
  readonly stage: Stage;
  /** What to do now. */
  readonly title: string;
  readonly why: string;
  /** What the learner has seen once it is done. */
  readonly learned: string;
  /** Where it is done: what follows the stage in the place, or the place within the trial. */
  readonly at: readonly string[];
  readonly done: (view: TrialView) => boolean;
}

/** The requirement of a stage is met. */
export const met =
  (stage: Stage, requirement: string) =>
  ({ stages }: TrialView): boolean =>
    stages.some(
      (one) =>
        one.stage === stage && one.requirements.some(({ id, met }) => id === requirement && met),
    );

/** So many runs are recorded at the stage. */
export const runsAt =
  (stage: Stage, least: number) =>
  ({ runs }: TrialView): boolean =>
    runs.filter((run) => run.stage === stage).length >= least;

/** So many readings of a quantity were taken at the stage. */
export const readingsAt =
  (stage: Stage, quantity: string, least = 1) =>
  ({ readings }: TrialView): boolean =>
    readings.filter((one) => one.stage === stage && one.quantity === quantity).length >= least;

/** So many hold traces are in the log of the stage. */
export const holdsAt =
  (stage: Stage, least: number) =>
  ({ traces }: TrialView): boolean =>
    traces.filter((one) => one.stage === stage && one.kind === "hold").length >= least;

/** Under this name the log keeps that something was looked at which needs no entry of its own. */
export const lookedItem = "looked";

/** A step at which there is something to see and nothing to enter. */
export const looked =
  (stage: Stage) =>
  ({ confirmations }: TrialView): boolean =>
    confirmations.some((one) => one.stage === stage && one.item === lookedItem);

const inRounds: ReadonlySet<Stage> = new Set(["recover", "evacuate", "charge", "run", "identify"]);

/** Place of a step within its trial, as parts of the address. */
export function placeOf({ stage, at }: GuideStep, { products }: TrialView): readonly string[] {
  if (at[0] === "add") return at;
  return ["stage", stage, (inRounds.has(stage) ? products[0]?.id : undefined) ?? "-", ...at];
}
