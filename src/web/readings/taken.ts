import type { ReadingPrompt, ReadingView, StageView, TrialView } from "../../trial/index.ts";

/** Readings that answer a prompt of a stage. */
export const readingsFor = (
  view: TrialView,
  stage: StageView,
  prompt: ReadingPrompt,
): readonly ReadingView[] =>
  view.readings.filter(
    (reading) =>
      reading.stage === stage.stage &&
      reading.round === stage.round &&
      reading.quantity === prompt.quantity &&
      (prompt.vessel === undefined || reading.vessel === prompt.vessel) &&
      (prompt.place === undefined || (reading.place ?? prompt.place) === prompt.place),
  );

/** Ids of the prompts that have a reading. */
export const readingsTaken = (view: TrialView, stage: StageView): ReadonlySet<string> =>
  new Set(
    stage.prompts
      .filter((prompt) => readingsFor(view, stage, prompt).length > 0)
      .map(({ id }) => id),
  );
